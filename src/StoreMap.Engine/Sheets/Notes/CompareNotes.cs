using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The words of a comparison: how each zone stands, what could not be compared, and whether the refrigerant added adds up.</summary>
internal static class CompareNotes
{
    public static IEnumerable<FlowItem> Changes(Plan plan, Comparison comparison, CompareMarks marks, IReadOnlyList<ServiceFinding> findings, Words words)
    {
        yield return NoteItems.Heading(words["compare.changes"]);
        if (comparison.Zones.Count + comparison.Sources.Count == 0) yield return NoteItems.Line(words["compare.none"]);
        var zones = comparison.Zones.Select(z => (Letter: marks[z], Lines: Lines(plan, z, findings, words)));
        var sources = comparison.Sources.Select(s => (Letter: marks[s], Lines: Lines(plan, s, comparison.Dates.Count, words)));
        foreach (var (letter, lines) in zones.Concat(sources).OrderBy(c => c.Letter.Length).ThenBy(c => c.Letter, StringComparer.Ordinal))
        {
            yield return new CalloutItem(letter, lines) { After = 1.4 };
        }
    }

    private static List<string> Lines(Plan plan, SourceHistory source, int visits, Words words) =>
    [
        $"{words.Say("compare.source", Tag(plan, source.Near))}: {words["change." + source.Change.Kebab()]}",
        words.Say("zone.look", words.Remark(source.Look)), words.Say("compare.seen", source.Seen.Count, visits),
    ];

    public static IEnumerable<FlowItem> Legend(Comparison comparison, Words words)
    {
        yield return NoteItems.Heading(words["legend.heading"]);
        foreach (var change in comparison.Zones.Select(z => z.Change).Concat(comparison.Sources.Select(s => s.Change)).Distinct().Order())
        {
            yield return NoteItems.Symbol((svg, p) => ChangesPass.Bar(svg, [p - new SheetPoint(4, 0), p + new SheetPoint(4, 0)], change), words["change." + change.Kebab()]);
        }

        if (comparison.Sources.Count > 0) yield return NoteItems.Symbol((svg, p) => ZonesPass.SourceSymbol(svg, p, 2), words["legend.elsewhere-mark"]);
    }

    public static IEnumerable<FlowItem> NotComparable(Plan plan, Comparison comparison, Words words)
    {
        if (comparison.NotComparable.Count == 0) yield break;
        yield return NoteItems.Heading(words["compare.not-comparable"]);
        foreach (var item in comparison.NotComparable)
        {
            yield return NoteItems.Bullet(words.Say("compare.not-comparable-item", Tag(plan, item.Fixture), string.Join(", ", item.Dates.Select(Days.Of)), words.Remark(item.Reason)));
        }
    }

    public static IEnumerable<FlowItem> Balances(Plan plan, Comparison comparison, Words words)
    {
        if (comparison.Balances.Count == 0) yield break;
        yield return NoteItems.Heading(words["balance.heading"]);
        foreach (var line in comparison.Balances.SelectMany(b => BalanceLines(plan, b, words))) yield return line;
    }

    /// <summary>One system's lines, the numbers and the verdict never parted by a column's end.</summary>
    public static IEnumerable<FlowItem> BalanceLines(Plan plan, MassBalance b, Words words)
    {
        yield return new TextItem(words.Say("balance.system", b.System, b.Refrigerant, b.Days), SheetStyle.SmallBold) { After = 0.3, KeepWithNext = true };
        yield return new TextItem(
            words.Say("balance.added", Lengths.Weight(plan.Units, b.AddedKilograms), Lengths.Weight(plan.Units, b.ExplainedLowKilograms), Lengths.Weight(plan.Units, b.ExplainedHighKilograms)),
            SheetStyle.Small) { After = 0.4, KeepWithNext = true };
        if (b.AnnualisedPercent is { } percent) yield return new TextItem(words.Say("balance.rate", Numbers.Fixed(percent, 1)), SheetStyle.Small) { After = 0.4, KeepWithNext = true };
        yield return new TextItem(Verdict(plan, b, words), b.AddsUp ? SheetStyle.Small : SheetStyle.SmallBold) { After = 0.4 };
        if (b.NotChecked.Count > 0) yield return NoteItems.Line(words.Say("balance.not-checked", string.Join(", ", b.NotChecked.Select(words.Remark))), 1.2);
    }

    private static string Verdict(Plan plan, MassBalance b, Words words) => b.AddsUp ? words["balance.adds-up"]
        : b.SourcesNear.Count == 0 ? words["balance.does-not"]
        : words.Say("balance.source", string.Join(", ", b.SourcesNear.Select(id => Tag(plan, id))));

    public static string Tag(Plan plan, string fixture) => plan.FindFixture(fixture) is { } f ? PlaceWords.Case(f) : fixture;

    private static List<string> Lines(Plan plan, ZoneHistory zone, IReadOnlyList<ServiceFinding> findings, Words words)
    {
        var lines = new List<string> { $"{Tag(plan, zone.Fixture)}: {words["change." + zone.Change.Kebab()]}" };
        if (plan.FindFixture(zone.Fixture) is { Front: not null } fixture && zone is { From: { } from, To: { } to })
        {
            lines.Add(Words.Sentence(PlaceWords.Interval(plan, words, fixture, from, to, zone.Now?.Center ?? ((from + to) / 2))));
        }

        lines.Add(words.Say("compare.peaks", string.Join(" → ", zone.Visits.Select(v => PeakText.Of(v) ?? "–"))));
        var probed = zone.Visits.Count(v => v.PeakPpm is not null);
        lines.Add(words.Say("compare.seen", zone.Visits.Count(v => v.Seen), zone.Visits.Count) + (probed < zone.Visits.Count ? words.Say("compare.unlike", zone.Visits.Count - probed) : ""));
        if (zone.Trend is { } trend) lines.Add(words.Say(Key(trend), Numbers.Ppm(Math.Abs(trend.SlopePerMonth))));
        foreach (var finding in FindingsOf(zone, findings)) lines.Add(words.Say("compare.service", FindingWords.Short(plan, finding, words), FindingWords.Status(finding, words)));
        return lines;
    }

    /// <summary>Findings of a zone: of its fixture, within about a panel of it, or without a place.</summary>
    public static IReadOnlyList<ServiceFinding> FindingsOf(ZoneHistory zone, IReadOnlyList<ServiceFinding> findings) =>
        [.. findings.Where(f => f.Entry.Fixture == zone.Fixture && (f.Entry.Along is not { } a || zone is not { From: { } from, To: { } to } || (a >= from - 1.3 && a <= to + 1.3)))];

    private static string Key(ZoneTrend trend) => trend.P > 0.1 ? "compare.no-trend" : trend.SlopePerMonth > 0 ? "compare.rising" : "compare.falling";
}
