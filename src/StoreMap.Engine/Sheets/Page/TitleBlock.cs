namespace StoreMap.Sheets;

/// <summary>The title block after ISO 7200: owner, title, number, revision, sheet, creator, approval, date, kind, scale.</summary>
internal sealed record TitleBlock
{
    /// <summary>Width, the most ISO 7200 allows.</summary>
    public const double Width = 180;

    /// <summary>Height.</summary>
    public const double Height = TitleRow + (3 * FieldRow);

    private const double TitleRow = 9;
    private const double FieldRow = 6;

    /// <summary>Title of the sheet.</summary>
    public required string Title { get; init; }

    /// <summary>The store.</summary>
    public required string Supplement { get; init; }

    /// <summary>Kind of document, such as <c>Heat map</c>.</summary>
    public required string DocumentKind { get; init; }

    /// <summary>Scale as written; null on sheets without a plan.</summary>
    public string? Scale { get; init; }

    /// <summary>Identification number.</summary>
    public required string Number { get; init; }

    /// <summary>Revision of the layout.</summary>
    public required string Revision { get; init; }

    /// <summary>Date of issue.</summary>
    public required string Date { get; init; }

    /// <summary>This sheet's number.</summary>
    public required int Sheet { get; init; }

    /// <summary>Number of sheets.</summary>
    public required int Count { get; init; }

    /// <summary>Height of the block at a width: two columns of fields where it is narrow.</summary>
    public static double HeightAt(double width) => width >= Width ? Height : TitleRow + (7 * FieldRow);

    /// <summary>Draws the block into its box.</summary>
    public void Draw(SvgWriter svg, SheetBox box, SheetContext context, Words words, string paper)
    {
        var owner = new Field(0.42, words["title.owner"], context.Company, SheetStyle.SmallBold);
        var number = new Field(0.30, words["title.number"], Number);
        var revision = new Field(0.10, words["title.revision"], Revision);
        var sheet = new Field(0.18, words["title.sheet"], words.Say("title.sheet-of", Sheet, Count), SheetStyle.SmallBold);
        var creator = new Field(0.37, words["title.creator"], context.Technician);
        var approved = new Field(0.35, words["title.approved"], context.ApprovedBy);
        var date = new Field(0.28, words["title.date"], Date, SheetStyle.SmallBold);
        var kind = new Field(0.37, words["title.kind"], DocumentKind);
        var scale = new Field(0.41, words["title.scale"], Scale ?? words["title.no-scale"], SheetStyle.SmallBold);
        var size = new Field(0.22, words["title.size"], paper + " · " + context.Language);
        svg.Begin("title-block", "title-block", Title);
        svg.Rectangle(box, new Paint(SheetStyle.Paper, SheetStyle.Ink, SheetStyle.Heavy));
        var y = box.Y;
        if (box.Width >= Width)
        {
            var mark = DrawLogo(svg, context, new SheetBox(box.Right - 36, y, 36, TitleRow)) / box.Width;
            Row(svg, box, ref y, TitleRow, new(0.60, null, Title, SheetStyle.Heading), new(0.40 - mark, null, Supplement, SheetStyle.BodyBold));
            Row(svg, box, ref y, FieldRow, owner, number, revision, sheet);
            Row(svg, box, ref y, FieldRow, creator, approved, date);
            Row(svg, box, ref y, FieldRow, kind, scale, size);
        }
        else
        {
            Row(svg, box, ref y, TitleRow, new Field(1 - (DrawLogo(svg, context, new SheetBox(box.Right - 30, y, 30, TitleRow)) / box.Width), null, Title, SheetStyle.Heading));
            Row(svg, box, ref y, FieldRow, new Field(1, null, Supplement, SheetStyle.BodyBold));
            Row(svg, box, ref y, FieldRow, owner with { Share = 1 });
            Row(svg, box, ref y, FieldRow, number with { Share = 0.7 }, revision with { Share = 0.3 });
            Row(svg, box, ref y, FieldRow, creator with { Share = 0.6 }, date with { Share = 0.4 });
            Row(svg, box, ref y, FieldRow, approved with { Share = 0.6 }, sheet with { Share = 0.4 });
            Row(svg, box, ref y, FieldRow, scale with { Share = 1 });
            Row(svg, box, ref y, FieldRow, kind with { Share = 0.66 }, size with { Share = 0.34 });
        }

        svg.End();
    }

    /// <summary>The company's mark at the right end of a row.</summary>
    /// <returns>The width to keep free.</returns>
    private static double DrawLogo(SvgWriter svg, SheetContext context, SheetBox row) =>
        context.Logo is null ? 0 : context.Logo.Draw(svg, row.Inset(SheetStyle.Pad)) + (2 * SheetStyle.Pad);

    private static void Row(SvgWriter svg, SheetBox box, ref double y, double height, params ReadOnlySpan<Field> cells)
    {
        if (y > box.Y) svg.Line(new(box.X, y), new(box.Right, y), Paint.Line(SheetStyle.Narrow));
        var x = box.X;
        foreach (var (share, caption, value, given) in cells)
        {
            var style = given == default ? SheetStyle.Small : given;
            var width = share * box.Width;
            if (x > box.X) svg.Line(new(x, y), new(x, y + height), Paint.Line(SheetStyle.Narrow));
            var left = x + SheetStyle.Pad;
            var baseLine = y + ((height + style.HeightMillimetres) / 2);
            if (caption is not null)
            {
                svg.Text(new(left, baseLine), caption, SheetStyle.SmallMuted);
                left += SheetStyle.SmallMuted.WidthOf(caption) + SheetStyle.Pad;
            }

            svg.Text(new(left, baseLine), style.Fit(value, x + width - SheetStyle.Pad - left), style);
            x += width;
        }

        y += height;
    }

    /// <summary>One field of a row.</summary>
    private readonly record struct Field(double Share, string? Caption, string Value, TextStyle Style = default);
}
