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
            svg.Text(new(last.Right, last.Bottom - 0.8), pointer.Fit(words["page.more"], last.Width), pointer, TextAnchor.End);
        }

        var rest = FlowColumns.Fill(svg, notes, columns);
        svg.End();
        return rest;
    }

    /// <summary>Draws scale bar and north arrow, and sets what found no room, with further text, on pages of its own.</summary>
    /// <param name="set">The sheets.</param>
    /// <param name="svg">The page with the plan.</param>
    /// <param name="plan">The store.</param>
    /// <param name="page">Its layout.</param>
    /// <param name="head">What the pages of text are called.</param>
    /// <param name="more">Further text that belongs to the sheet.</param>
    /// <param name="rest">Notes without room.</param>
    /// <param name="left">Labels without a place.</param>
    public static void Finish(
        SheetSet set, SvgWriter svg, Plan plan, PlanPage page, SheetHead head, IReadOnlyList<FlowItem> more, IReadOnlyList<FlowItem> rest,
        IReadOnlyList<PlanLabel> left)
    {
        DrawBar(svg, plan, page);
        List<FlowItem> items = [.. more, NoteItems.Gap(4), .. rest];
        var keys = left.Select(l => l.Key).OfType<string>().ToList();
        if (keys.Count > 0)
        {
            items.AddRange([NoteItems.Gap(4), NoteItems.Heading(set.Words["key.heading"]), NoteItems.Line(set.Words["key.why"])]);
            items.AddRange(keys.Select(NoteItems.Bullet));
        }

        while (items.Count > 0 && items[0].Parts) items.RemoveAt(0);
        set.AddText(head, items);
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
