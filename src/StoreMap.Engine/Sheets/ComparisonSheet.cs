using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>The comparison: a change map with how each zone stands, the visits side by side, a trend line per zone with repairs
/// marked, what could not be compared, and whether the refrigerant added adds up.</summary>
public static class ComparisonSheet
{
    private const double NotesArea = 17000;
    private const double Gap = 3;

    /// <summary>Visits shown side by side; older ones stay in the trends.</summary>
    private const int MostPlans = 4;

    /// <summary>Draws the sheets.</summary>
    /// <param name="plan">The store, as it was at the latest visit.</param>
    /// <param name="comparison">The comparison.</param>
    /// <param name="visits">The visits' surveys, oldest first.</param>
    /// <param name="record">The service record, for the repairs; null when there is none.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    /// <returns>The change map, the visits, and pages of what finds no room on them.</returns>
    public static IReadOnlyList<Sheet> Draw(
        Plan plan, Comparison comparison, IReadOnlyList<NetSurvey> visits, ServiceRecord? record, SheetContext context)
    {
        var day = comparison.Dates.Count > 0 ? Days.Of(comparison.Dates[^1]) : "";
        var set = new SheetSet(plan, context, day);
        DrawChanges(set, plan, comparison);
        DrawVisits(set, plan, comparison, visits, record);
        return set.Finish();
    }

    private static void DrawChanges(SheetSet set, Plan plan, Comparison comparison)
    {
        var words = set.Words;
        var page = PlanPage.Choose(plan, set.PlanPaper, NotesArea);
        var head = new SheetHead("comparison", words["compare.title"], words["compare.kind"]);
        var svg = set.Begin(head, page, words.Say("compare.description", plan.Name, comparison.Dates.Count));
        var d = new PlanDrawing(svg, plan, page.To, page.PlanBox, words);
        svg.Begin("plan", "plan", plan.Name);
        FloorPass.Draw(d);
        ObstaclesPass.Draw(d);
        PitsPass.Draw(d);
        FixturesPass.Draw(d, filled: true);
        WallsPass.Draw(d);
        EntrancesPass.Draw(d);
        EquipmentPass.Draw(d);
        DropsPass.Draw(d);
        ChangesPass.Draw(d, comparison);
        FixturesPass.AddLabels(d, comparison.Zones.Select(z => z.Fixture).ToHashSet());
        RoomLabelsPass.AddLabels(d);
        var left = d.Labels.Place();
        d.Labels.Draw(svg);
        svg.End();
        List<FlowItem> notes =
        [
            NoteItems.Heading(words.Say("compare.dates", string.Join(", ", comparison.Dates.Select(Days.Of)))), NoteItems.Line(words["compare.like"], 1),
            .. CompareNotes.Changes(plan, comparison, words), NoteItems.Rule(), .. CompareNotes.Legend(comparison, words), .. LegendNotes.PlanSymbols(words, d.Used).Skip(1),
        ];
        var rest = PlanPages.FillNotes(svg, page, notes, words, false);
        PlanPages.Finish(set, svg, plan, page, head with { Name = "comparison-notes", Title = words.Say("page.notes-to", head.Title) }, [], rest, left);
    }

    private static void DrawVisits(SheetSet set, Plan plan, Comparison comparison, IReadOnlyList<NetSurvey> visits, ServiceRecord? record)
    {
        var words = set.Words;
        var frame = new PageFrame(set.PlanPaper, true);
        var d = frame.Drawing;
        var titleBox = frame.TitleBlockBox();
        var head = new SheetHead("visits", words["compare.visits-title"], words["compare.kind"]);
        IReadOnlyList<NetSurvey> shown = [.. visits.TakeLast(MostPlans)];
        var width = d.Width - (2 * Gap);
        var scale = shown.Count == 0 ? default : VisitPlans.ScaleOf(plan, shown.Count, width, d.Height * 0.55);
        var svg = set.Begin(head, frame, titleBox, shown.Count == 0 ? null : scale.Text, words.Say("compare.visits-description", plan.Name));
        var y = d.Y + 6;
        if (shown.Count > 0)
        {
            var height = VisitPlans.HeightOf(plan, scale.Denominator);
            var all = shown.SelectMany(v => v.Readings).ToList();
            var colours = new ConcentrationScale(
                all.Select(r => r.DetectionPpm).Where(p => p > 0).DefaultIfEmpty(1).Min(), all.Select(r => r.ActionPpm).DefaultIfEmpty(2).Max(),
                all.Select(r => r.NetPpm).DefaultIfEmpty(2).Max(), set.Context.ColourMap);
            VisitPlans.Draw(svg, new SheetBox(d.X + Gap, y, width, height), plan, shown, scale.Denominator, colours, words);
            ScaleBar.Draw(svg, new(d.X + Gap + 4, y + height + 1), scale.Denominator, plan.Units, 74);
            LegendNotes.DrawRamp(svg, new(d.X + Gap + 100, y + height - 2), 120, words, colours);
            y += height + 20;
        }

        svg.Line(new(d.X, y), new(d.Right, y), Paint.Line(SheetStyle.Narrow));
        var rest = FlowColumns.Fill(svg, Items(plan, comparison, record, words), Columns(d, titleBox, y + Gap));
        set.AddText(head with { Name = "visits-notes", Title = words.Say("page.notes-to", head.Title) }, rest, 2);
    }

    private static List<SheetBox> Columns(SheetBox d, SheetBox titleBox, double top)
    {
        var count = Math.Max(2, (int)(d.Width / 92));
        var width = (d.Width - (Gap * (count + 1))) / count;
        return
        [
            .. Enumerable.Range(0, count).Select(i => d.X + Gap + (i * (width + Gap)))
                .Select(x => new SheetBox(x, top, width, (x + width > titleBox.X ? titleBox.Y : d.Bottom) - Gap - top)),
        ];
    }

    private static List<FlowItem> Items(Plan plan, Comparison comparison, ServiceRecord? record, Words words)
    {
        var items = new List<FlowItem>();
        var findings = record is null ? [] : ServiceFinding.Of(record);
        foreach (var (i, zone) in comparison.Zones.Index())
        {
            if (zone.Visits.Count(v => v.PeakPpm is not null) < 2) continue;
            var own = findings.Where(f => f.Entry.Fixture == zone.Fixture && Near(f.Entry.Along, zone)).ToList();
            items.Add(new TrendChart($"{ZonesPass.Letter(i)}: {CompareNotes.Tag(plan, zone.Fixture)}", zone, own, words) { After = 2 });
        }

        items.AddRange([.. CompareNotes.Balances(plan, comparison, words), NoteItems.Gap(2), .. CompareNotes.NotComparable(plan, comparison, words)]);
        return items;
    }

    /// <summary>A finding counts for a zone when it lies within about a panel of it, or has no place.</summary>
    private static bool Near(double? along, ZoneHistory zone) =>
        along is not { } a || zone is not { From: { } from, To: { } to } || (a >= from - 1.3 && a <= to + 1.3);
}
