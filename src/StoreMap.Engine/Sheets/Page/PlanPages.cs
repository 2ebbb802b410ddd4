using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>What sheets with a plan share: scale bar, north arrow, notes, and the page of what found no room.</summary>
internal static class PlanPages
{
    /// <summary>The bar stays within the first column under the plan.</summary>
    private const double BarWidth = 74;

    /// <summary>Sets the notes beside the plan; tells the reader when some are on the next sheet.</summary>
    /// <returns>What found no room.</returns>
    public static IReadOnlyList<FlowItem> FillNotes(
        SvgWriter svg, PlanPage page, IReadOnlyList<FlowItem> notes, Words words, bool more)
    {
        svg.Begin("notes", "notes");
        var last = page.Notes[^1];
        var pointer = SheetStyle.SmallBold;
        var columns = page.Notes;
        if (more || FlowColumns.Fill(new SvgWriter(1, 1, "", "", ""), notes, columns).Count > 0)
        {
            var room = pointer.LineHeight + 1;
            columns = [.. page.Notes.Take(page.Notes.Count - 1), last with { Height = last.Height - room }];
            svg.Text(new(last.X, last.Bottom - 0.8), pointer.Fit(words["page.more"], last.Width), pointer);
        }

        var rest = FlowColumns.Fill(svg, notes, columns);
        svg.End();
        return rest;
    }

    /// <summary>Draws scale bar, north arrow and title block, and sets the rest on pages of text.</summary>
    /// <param name="svg">The page with the plan.</param>
    /// <param name="plan">The store.</param>
    /// <param name="page">Its layout.</param>
    /// <param name="context">What the caller handed in.</param>
    /// <param name="words">Language.</param>
    /// <param name="name">File name without extension.</param>
    /// <param name="title">Title.</param>
    /// <param name="kind">Kind of document.</param>
    /// <param name="date">Date where the caller gave none.</param>
    /// <param name="rest">Notes without room.</param>
    /// <param name="left">Labels without a place.</param>
    /// <param name="more">Further text that belongs to the sheet.</param>
    /// <param name="moreTitle">Title of the pages of text; null for the sheet's title with "notes".</param>
    public static IReadOnlyList<Sheet> Finish(
        SvgWriter svg, Plan plan, PlanPage page, SheetContext context, Words words, string name, string title, string kind, string date,
        IReadOnlyList<FlowItem> rest, IReadOnlyList<PlanLabel> left, IReadOnlyList<FlowItem>? more = null,
        string? moreTitle = null)
    {
        DrawBar(svg, plan, page);
        List<FlowItem> items = [.. more ?? []];
        if (rest.Count > 0) items.AddRange([.. items.Count > 0 ? [NoteItems.Gap(4)] : Array.Empty<FlowItem>(), .. rest]);
        var keys = left.Select(l => l.Key).OfType<string>().ToList();
        if (keys.Count > 0)
        {
            items.AddRange([NoteItems.Gap(4), NoteItems.Heading(words["key.heading"]), NoteItems.Line(words["key.why"])]);
            items.AddRange(keys.Select(NoteItems.Bullet));
        }

        var texts = items.Count == 0 ? [] : TextPages.Set(plan, context, words, name + "-notes", moreTitle ?? words.Say("page.notes-to", title), kind, date, items, 1);
        var block = SheetPages.Block(plan, context, title, kind, page.Scale.Text, 0, 1 + texts.Count, date);
        return [SheetPages.End(svg, page.Frame, page.TitleBox, block, context, words, name), .. texts];
    }

    private static void DrawBar(SvgWriter svg, Plan plan, PlanPage page)
    {
        var x = page.BarAt.X;
        if (plan.NorthDegrees is { } north)
        {
            var middle = new SheetPoint(x + 3, page.BarAt.Y + 2.6);
            NorthArrow.Draw(svg, middle, page.To, north);
            x += NorthArrow.Size;
        }

        ScaleBar.Draw(svg, new(x, page.BarAt.Y), page.Scale.Denominator, plan.Units, Math.Min(BarWidth, page.PlanBox.Width * 0.5));
    }
}
