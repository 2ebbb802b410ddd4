using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>What sheets with a plan share: scale bar, north arrow, notes, and the pages of what found no room.</summary>
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
        if (more || FlowColumns.Fill(SvgWriter.Scratch(), notes, columns).Count > 0)
        {
            var room = pointer.LineHeight + 1;
            columns = [.. page.Notes.Take(page.Notes.Count - 1), last with { Height = last.Height - room }];
            svg.Text(new(last.Right, last.Bottom - 0.8), pointer.Fit(words["page.more"], last.Width), pointer, TextAnchor.End);
        }

        var rest = FlowColumns.Fill(svg, notes, columns);
        svg.End();
        return rest;
    }

    /// <summary>Sets what found no room on the plan's page on pages of its own, after text that belongs there.</summary>
    /// <param name="set">The sheets.</param>
    /// <param name="head">What the pages are called.</param>
    /// <param name="table">Text that belongs there.</param>
    /// <param name="rest">Notes without room.</param>
    /// <param name="keys">Labels without a place, as the keyed table says them.</param>
    /// <param name="columns">Columns of these pages.</param>
    public static void Behind(SheetSet set, SheetHead head, IReadOnlyList<FlowItem> table, IReadOnlyList<FlowItem> rest, IReadOnlyList<string> keys, int columns = 1)
    {
        List<FlowItem> items = [.. table, NoteItems.Gap(4), .. rest];
        if (keys.Count > 0)
        {
            items.AddRange([NoteItems.Gap(4), NoteItems.Heading(set.Words["key.heading"]), NoteItems.Line(set.Words["key.why"])]);
            items.AddRange(keys.Select(NoteItems.Bullet));
        }

        set.AddText(head, items, columns);
    }

    /// <summary>Draws scale bar and north arrow; under a plan of made-up places a word of warning instead.</summary>
    public static void DrawBar(SvgWriter svg, Plan plan, PlanPage page, Words words)
    {
        var x = page.BarAt.X;
        if (plan.Schematic)
        {
            svg.Text(new(x, page.BarAt.Y + 4), SheetStyle.SmallBold.Fit(words["plan.schematic"], page.PlanBox.Right - x), SheetStyle.SmallBold);
            return;
        }

        if (plan.NorthDegrees is { } north)
        {
            var middle = new SheetPoint(x + 3, page.BarAt.Y + 2);
            NorthArrow.Draw(svg, middle, page.To, north, words);
            x += NorthArrow.Size;
        }

        ScaleBar.Draw(svg, new(x, page.BarAt.Y), page.Scale.Denominator, plan.Units, Math.Min(BarWidth, page.PlanBox.Width * 0.5));
    }
}
