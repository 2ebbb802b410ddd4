namespace StoreMap.Sheets;

/// <summary>An empty drawing sheet after ISO 5457: frame, centring marks and grid references; the title block sits at its lower right.</summary>
internal sealed record PageFrame
{
    /// <summary>Filing margin on the left, the frame included.</summary>
    public const double LeftMargin = 20;

    /// <summary>Margin on the other sides.</summary>
    public const double Margin = 10;

    /// <summary>How far text keeps from the frame where a centring mark comes in.</summary>
    public const double MarkRoom = GridBorder + 1;

    private const double GridBorder = 5;
    private const double GridField = 50;
    private const string Letters = "ABCDEFGHJKLMNPQRSTUVWXYZ";

    /// <summary>Sets out a sheet.</summary>
    public PageFrame(PaperSize paper, bool landscape)
    {
        Paper = paper;
        Width = landscape ? paper.LongMillimetres : paper.ShortMillimetres;
        Height = landscape ? paper.ShortMillimetres : paper.LongMillimetres;
        Drawing = new SheetBox(LeftMargin, Margin, Width - LeftMargin - Margin, Height - (2 * Margin));
    }

    /// <summary>The sheet size.</summary>
    public PaperSize Paper { get; }

    /// <summary>Page width, millimetres.</summary>
    public double Width { get; }

    /// <summary>Page height, millimetres.</summary>
    public double Height { get; }

    /// <summary>The drawing space inside the frame.</summary>
    public SheetBox Drawing { get; }

    /// <summary>The title block in the lower right corner, at most 180 mm wide.</summary>
    /// <param name="width">Wanted width, millimetres.</param>
    public SheetBox TitleBlockBox(double width = TitleBlock.Width)
    {
        width = Math.Min(Math.Min(width, TitleBlock.Width), Drawing.Width);
        var height = TitleBlock.HeightAt(width);
        return new SheetBox(Drawing.Right - width, Drawing.Bottom - height, width, height);
    }

    /// <summary>Number of grid fields across and down: fields of 50 mm counted from the centring marks, the end fields take the rest.</summary>
    public (int Across, int Down) GridFields =>
        (FieldsFrom(Width / 2, Drawing.X, Drawing.Right).Sum(), FieldsFrom(Height / 2, Drawing.Y, Drawing.Bottom).Sum());

    /// <summary>Draws frame, centring marks and grid references.</summary>
    public void Draw(SvgWriter svg)
    {
        svg.Begin("frame", "frame");
        var border = Drawing.Inset(-GridBorder);
        svg.Rectangle(border, Paint.Line(SheetStyle.Medium));
        svg.Rectangle(Drawing, Paint.Line(SheetStyle.Heavy));
        DrawCentringMarks(svg);
        DrawGrid(svg, border);
        svg.End();
    }

    private static int[] FieldsFrom(double centre, double low, double high) =>
        [Fields(centre - low), Fields(high - centre)];

    private static int Fields(double half) => Math.Max(1, (int)Math.Round(half / GridField, MidpointRounding.AwayFromZero));

    private void DrawCentringMarks(SvgWriter svg)
    {
        double cx = Width / 2, cy = Height / 2;
        var paint = Paint.Line(SheetStyle.Heavy);
        svg.Line(new(cx, Drawing.Y - GridBorder), new(cx, Drawing.Y + GridBorder), paint);
        svg.Line(new(cx, Drawing.Bottom + GridBorder), new(cx, Drawing.Bottom - GridBorder), paint);
        svg.Line(new(Drawing.X - GridBorder, cy), new(Drawing.X + GridBorder, cy), paint);
        svg.Line(new(Drawing.Right + GridBorder, cy), new(Drawing.Right - GridBorder, cy), paint);
    }

    private void DrawGrid(SvgWriter svg, SheetBox border)
    {
        var columns = Edges(Width / 2, Drawing.X, Drawing.Right);
        var rows = Edges(Height / 2, Drawing.Y, Drawing.Bottom);
        var paint = Paint.Line(SheetStyle.Medium);
        var style = SheetStyle.Small;
        var drop = style.HeightMillimetres / 2;
        for (var i = 0; i + 1 < columns.Count; i++)
        {
            var middle = (columns[i] + columns[i + 1]) / 2;
            foreach (var (edge, outer) in new[] { (Drawing.Y, border.Y), (Drawing.Bottom, border.Bottom) })
            {
                if (i > 0) svg.Line(new(columns[i], edge), new(columns[i], outer), paint);
                svg.Text(new(middle, ((edge + outer) / 2) + drop), Numbers.Whole(i + 1), style, TextAnchor.Middle);
            }
        }

        for (var i = 0; i + 1 < rows.Count; i++)
        {
            var middle = ((rows[i] + rows[i + 1]) / 2) + drop;
            foreach (var (edge, outer) in new[] { (Drawing.X, border.X), (Drawing.Right, border.Right) })
            {
                if (i > 0) svg.Line(new(edge, rows[i]), new(outer, rows[i]), paint);
                svg.Text(new((edge + outer) / 2, middle), Letters[i % Letters.Length].ToString(), style, TextAnchor.Middle);
            }
        }
    }

    private static List<double> Edges(double centre, double low, double high)
    {
        var counts = FieldsFrom(centre, low, high);
        var edges = new List<double> { low };
        for (var i = counts[0] - 1; i >= 0; i--) edges.Add(centre - (i * GridField));
        for (var i = 1; i < counts[1]; i++) edges.Add(centre + (i * GridField));
        edges.Add(high);
        return edges;
    }
}
