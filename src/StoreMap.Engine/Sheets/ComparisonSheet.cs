using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>The comparison: a change map with how each zone stands, the visits side by side, a trend line per zone with repairs
/// marked, what could not be compared, and whether the refrigerant added adds up.</summary>
public static class ComparisonSheet
{
    private const double Gap = 3;

    /// <summary>Visits shown side by side; older ones stay in the trends.</summary>
    private const int MostPlans = 4;

    /// <summary>Draws the sheets.</summary>
    /// <param name="plan">The store, as it was at the latest visit.</param>
    /// <param name="comparison">The comparison.</param>
    /// <param name="visits">The visits with what was located at them, oldest first.</param>
    /// <param name="record">The service record, for the repairs; null when there is none.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    /// <returns>The change map, the visits, and pages of what finds no room on them.</returns>
    public static IReadOnlyList<Sheet> Draw(
        Plan plan, Comparison comparison, IReadOnlyList<SurveyVisit> visits, ServiceRecord? record, SheetContext context)
    {
        var day = comparison.Dates.Count > 0 ? Days.Of(comparison.Dates[^1]) : "";
        var set = new SheetSet(plan, context, day);
        IReadOnlyList<ServiceFinding> findings = record is null ? [] : ServiceFinding.Of(record, comparison.Dates.Count > 0 ? comparison.Dates[^1] : null);
        var marks = new CompareMarks(comparison, visits.Count > 0 ? visits[^1].Result : null);
        DrawChanges(set, plan, comparison, marks, findings);
        DrawVisits(set, plan, comparison, marks, [.. visits.Select(v => v.Survey)], findings);
        return set.Finish();
    }

    private static void DrawChanges(SheetSet set, Plan plan, Comparison comparison, CompareMarks marks, IReadOnlyList<ServiceFinding> findings)
    {
        var words = set.Words;
        var head = new SheetHead("comparison", words["compare.title"], words["compare.kind"]);
        new PlanSheet
        {
            Set = set, Plan = plan, Head = head, Behind = head with { Name = "comparison-notes", Title = words.Say("page.notes-to", head.Title) },
            Description = words.Say("compare.description", plan.Name, comparison.Dates.Count),
            Subject = d => ChangesPass.Draw(d, comparison, marks), Named = comparison.Zones.Select(z => z.Fixture).Concat(comparison.Sources.Select(s => s.Near)).ToHashSet(),
            Notes = used =>
            [
                NoteItems.Heading(words.Say("compare.dates", string.Join(", ", comparison.Dates.Select(Days.Of)))), NoteItems.Line(words["compare.like"], 1),
                .. CompareNotes.Changes(plan, comparison, marks, findings, words), NoteItems.Rule(), .. CompareNotes.Legend(comparison, words), .. LegendNotes.PlanSymbols(words, used).Skip(1),
            ],
        }.Draw();
    }

    private static void DrawVisits(
        SheetSet set, Plan plan, Comparison comparison, CompareMarks marks, IReadOnlyList<NetSurvey> visits, IReadOnlyList<ServiceFinding> findings)
    {
        var words = set.Words;
        var frame = new PageFrame(set.PlanPaper, true);
        var d = frame.Drawing;
        var titleBox = frame.TitleBlockBox();
        var head = new SheetHead("visits", words["compare.visits-title"], words["compare.kind"]);
        IReadOnlyList<NetSurvey> shown = [.. visits.TakeLast(MostPlans)];
        var width = d.Width - (2 * Gap);
        var scale = shown.Count == 0 ? default : VisitPlans.ScaleOf(plan, shown.Count, width, d.Height * 0.55);
        var svg = set.Begin(head, frame, titleBox, shown.Count == 0 ? null : set.ScaleText(plan, scale), words.Say("compare.visits-description", plan.Name));
        var y = d.Y + 6;
        if (shown.Count > 0)
        {
            var height = VisitPlans.HeightOf(plan, scale.Denominator);
            var all = shown.SelectMany(v => v.Readings).ToList();
            var colours = new ConcentrationScale(
                all.Select(r => r.DetectionPpm).Where(p => p > 0).DefaultIfEmpty(1).Min(), all.Select(r => r.ActionPpm).DefaultIfEmpty(2).Max(),
                all.Select(r => r.NetPpm).DefaultIfEmpty(2).Max(), set.Context.ColourMap);
            VisitPlans.Draw(svg, new SheetBox(d.X + Gap, y, width, height), plan, shown, scale.Denominator, colours, words);
            if (!plan.Schematic) ScaleBar.Draw(svg, new(d.X + Gap + 4, y + height + 1), scale.Denominator, plan.Units, 74);
            LegendNotes.DrawRamp(svg, new(d.X + Gap + 100, y + height - 2), 120, words, colours);
            y += height + 20;
        }

        svg.Line(new(d.X, y), new(d.Right, y), Paint.Line(SheetStyle.Narrow));
        var rest = FlowColumns.Fill(svg, Items(plan, comparison, marks, findings, words), Columns(d, titleBox, y + Gap));
        set.AddText(head with { Name = "visits-notes", Title = words.Say("page.notes-to", head.Title) }, rest, 2);
    }

    private static List<SheetBox> Columns(SheetBox d, SheetBox titleBox, double top)
    {
        var count = Math.Max(2, (int)(d.Width / 92));
        var width = (d.Width - (Gap * (count + 1))) / count;
        return
        [
            .. Enumerable.Range(0, count).Select(i => d.X + Gap + (i * (width + Gap)))
                .Select(x => new SheetBox(x, top, width, (x + width > titleBox.X ? titleBox.Y : d.Bottom) - Gap - top))
                .Where(column => column.Height >= TrendChart.ChartHeight),
        ];
    }

    private static List<FlowItem> Items(Plan plan, Comparison comparison, CompareMarks marks, IReadOnlyList<ServiceFinding> findings, Words words)
    {
        var items = new List<FlowItem>();
        foreach (var zone in comparison.Zones)
        {
            if (zone.Visits.Count(v => v.PeakPpm is not null) < 2) continue;
            var own = CompareNotes.FindingsOf(zone, findings);
            items.Add(new TrendChart($"{marks[zone]}: {CompareNotes.Tag(plan, zone.Fixture)}", zone.Visits, zone.Trend, own, words) { After = 2 });
        }

        // The plans of the visits and the charts differ where a visit read in a state of its own.
        if (items.Count > 0) items.AddRange([NoteItems.Muted(words["compare.like"] + " " + words["compare.plans"]), NoteItems.Gap(2)]);
        items.AddRange([.. CompareNotes.Balances(plan, comparison, words), NoteItems.Gap(2), .. CompareNotes.NotComparable(plan, comparison, words)]);
        return items;
    }
}
