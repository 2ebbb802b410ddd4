using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Pages of text and tables, as many as the items need.</summary>
internal static class TextPages
{
    private const double Gap = 4;

    /// <summary>Clear of the centring mark at the upper edge.</summary>
    private const double Top = 7;

    /// <summary>Sets items on pages.</summary>
    /// <param name="plan">The store, for the title block.</param>
    /// <param name="context">What the caller handed in.</param>
    /// <param name="words">Language.</param>
    /// <param name="name">File name without extension; page numbers are added from the second page on.</param>
    /// <param name="title">Title.</param>
    /// <param name="kind">Kind of document.</param>
    /// <param name="date">Date where the caller gave none.</param>
    /// <param name="items">What to set.</param>
    /// <param name="before">Sheets that the call draws before these.</param>
    /// <param name="columns">Columns of a page.</param>
    public static IReadOnlyList<Sheet> Set(
        Plan plan, SheetContext context, Words words, string name, string title, string kind, string date, IReadOnlyList<FlowItem> items,
        int before = 0, int columns = 1)
    {
        var frame = new PageFrame(context.TextPaper ?? PaperSize.ForText(plan.Units), false);
        var titleBox = frame.TitleBlockBox();
        var d = frame.Drawing;
        var width = (d.Width - (Gap * (columns + 1))) / columns;
        var boxes = Enumerable.Range(0, columns)
            .Select(i => new SheetBox(d.X + Gap + (i * (width + Gap)), d.Y + Top, width, titleBox.Y - d.Y - Top - Gap))
            .ToList();
        var pages = new List<SvgWriter>();
        while (items.Count > 0)
        {
            var svg = SheetPages.Begin(frame, $"{title}, {plan.Name}", words.Say("page.text-description", title, plan.Name), context);
            svg.Begin("text", "text");
            items = FlowColumns.Fill(svg, items, boxes);
            svg.End();
            pages.Add(svg);
        }

        return [.. pages.Select((svg, i) =>
        {
            var block = SheetPages.Block(plan, context, title, kind, null, before + i, before + pages.Count, date);
            return SheetPages.End(svg, frame, titleBox, block, context, words, i == 0 ? name : $"{name}-{Numbers.Whole(i + 1)}");
        })];
    }
}
