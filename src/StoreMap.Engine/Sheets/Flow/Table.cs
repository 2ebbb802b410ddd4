namespace StoreMap.Sheets;

/// <summary>A column of a table.</summary>
/// <param name="Head">Its heading.</param>
/// <param name="Share">Its part of the width; parts need not add up to 1.</param>
/// <param name="Anchor">How its cells stand.</param>
/// <param name="Bold">True for cells in semi-bold.</param>
/// <param name="TickBox">True for cells with an empty box to tick instead of text.</param>
internal sealed record TableColumn(string Head, double Share, TextAnchor Anchor = TextAnchor.Start, bool Bold = false, bool TickBox = false);

/// <summary>A table as a list of rows; its head is repeated in each column or page it runs on to.</summary>
internal sealed class Table(IReadOnlyList<TableColumn> columns, double rowHeight = 5.2)
{
    private const double CellPad = 0.9;

    /// <summary>What ends at the right keeps this off what begins at the left behind it, so that the two are not read as one.</summary>
    private const double EndPad = 2.4;
    private static readonly string Band = SheetStyle.Probed;

    /// <summary>The rows, the head before them.</summary>
    /// <param name="rows">Cells of each row; a row with one cell only runs across the table as a sub-heading.</param>
    public IEnumerable<FlowItem> Items(IEnumerable<IReadOnlyList<string>> rows)
    {
        var head = new Row(this, [.. columns.Select(c => c.Head)], RowKind.Head) { KeepWithNext = true };
        yield return head;
        foreach (var row in rows)
        {
            var group = row.Count == 1 && columns.Count > 1;
            yield return new Row(this, row, group ? RowKind.Group : RowKind.Body) { RepeatAtHead = head, KeepWithNext = group };
        }
    }

    /// <summary>Something to do between rows: a text across the columns before the box to tick.</summary>
    public FlowItem Step(string text) => new Row(this, [text], RowKind.Step);

    private enum RowKind
    {
        Head,
        Group,
        Body,
        Step,
    }

    private sealed class Row(Table table, IReadOnlyList<string> cells, RowKind kind) : FlowItem
    {
        private static readonly TextStyle HeadStyle = SheetStyle.SmallBold;

        public override double Height(double width)
        {
            var lines = CellLines(width).Max(c => c.Count);
            var least = kind is RowKind.Body or RowKind.Step ? table.RowHeightOf : 5.2;
            return Math.Max(least, (lines * SheetStyle.Small.LineHeight) + 0.9);
        }

        public override void Draw(SvgWriter svg, SheetPoint at, double width)
        {
            var height = Height(width);
            if (kind == RowKind.Group) svg.Rectangle(new SheetBox(at.X, at.Y, width, height), Paint.Solid(Band));
            var lines = CellLines(width);
            var x = at.X;
            for (var i = 0; i < lines.Count; i++)
            {
                var cellWidth = CellWidth(i, width);
                var anchor = IsAcross ? TextAnchor.Start : table.ColumnsOf[i].Anchor;
                var left = anchor switch
                {
                    TextAnchor.Start => x + CellPad,
                    TextAnchor.End => x + cellWidth - table.RightPad(i),
                    _ => x + (cellWidth / 2),
                };
                var style = StyleOf(i);
                var block = (lines[i].Count * style.LineHeight) - (style.LineHeight - style.HeightMillimetres);
                var y = at.Y + ((height - block) / 2) + style.HeightMillimetres;
                foreach (var line in lines[i])
                {
                    svg.Text(new(left, y), line, style, anchor);
                    y += style.LineHeight;
                }

                if (kind == RowKind.Body && table.ColumnsOf[i].TickBox) Box(svg, x + (cellWidth / 2), at.Y + (height / 2));
                if (kind == RowKind.Step) Box(svg, x + cellWidth + (table.WidthOf(table.Tick, width) / 2), at.Y + (height / 2));
                if (kind == RowKind.Body && i > 0) svg.Line(new(x, at.Y), new(x, at.Y + height), Paint.Line(SheetStyle.Hair, SheetStyle.Faint));
                x += cellWidth;
            }

            var rule = kind == RowKind.Head ? Paint.Line(SheetStyle.Medium) : Paint.Line(SheetStyle.Hair, SheetStyle.Rule);
            svg.Line(new(at.X, at.Y + height), new(at.X + width, at.Y + height), rule);
        }

        private static void Box(SvgWriter svg, double x, double y) => svg.Rectangle(new SheetBox(x - 1.6, y - 1.6, 3.2, 3.2), Paint.Line(SheetStyle.Narrow));

        private bool IsAcross => kind is RowKind.Group or RowKind.Step;

        private double CellWidth(int column, double width) => kind switch
        {
            RowKind.Group => width,
            RowKind.Step => Enumerable.Range(0, table.Tick).Sum(c => table.WidthOf(c, width)),
            _ => table.WidthOf(column, width),
        };

        private TextStyle StyleOf(int column) =>
            kind != RowKind.Body ? HeadStyle : table.ColumnsOf[column].Bold ? SheetStyle.SmallBold : SheetStyle.Small;

        private List<IReadOnlyList<string>> CellLines(double width) =>
            [.. cells.Select((c, i) => StyleOf(i).Wrap(c, CellWidth(i, width) - CellPad - table.RightPad(i)))];
    }

    private IReadOnlyList<TableColumn> ColumnsOf => columns;

    private double RightPad(int column) =>
        columns[column].Anchor == TextAnchor.End && column + 1 < columns.Count && columns[column + 1].Anchor == TextAnchor.Start ? EndPad : CellPad;

    private double RowHeightOf => rowHeight;

    /// <summary>The column of boxes to tick; behind all columns where there is none.</summary>
    private int Tick => columns.TakeWhile(c => !c.TickBox).Count();

    private double WidthOf(int column, double width) => columns[column].Share / columns.Sum(c => c.Share) * width;
}
