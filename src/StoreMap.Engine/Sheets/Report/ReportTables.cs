using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The tables of a report.</summary>
internal static class ReportTables
{
    /// <summary>Leaks and suspicions of this visit.</summary>
    public static IEnumerable<FlowItem> Found(Plan plan, NetSurvey net, LocateResult located, Words words)
    {
        yield return NoteItems.Heading(words["report.findings"]);
        if (located.Zones.Count + located.Elsewhere.Count == 0)
        {
            yield return NoteItems.Line(words["zone.none"]);
            yield break;
        }

        var table = new Table([new("", 0.8, TextAnchor.Middle, true), new(words["report.case"], 3), new(words["report.sure"], 2.6), new(words["report.place"], 4.6), new(words["report.peak"], 3), new(words["report.do"], 4)]);
        var zones = located.Zones.Select((z, i) => (IReadOnlyList<string>)
        [
            LeakLetters.Of(i), CompareNotes.Tag(plan, z.Fixture), LiftedNotes.FoundOf(located, z) is null ? words.Chance(z.Probability) : words["zone.confirmed"],
            z is { From: { } from, To: { } to, Center: { } center } && plan.FindFixture(z.Fixture) is { } f ? PlaceWords.Interval(plan, words, f, from, to, center) : words.Say("zone.walk-in", Lengths.Tape(plan.Units, z.Radius ?? 0, z.Radius ?? 0)),
            words.Say("report.peak-strength", ZoneNotes.Peak(net, z, words), words["strength." + z.Strength]), z.Panels.Count > 0 ? ZoneNotes.Lift(words, located, z) : "",
        ]);
        var outside = located.Elsewhere.Select((e, i) => (IReadOnlyList<string>)
        [
            LeakLetters.Of(located.Zones.Count + i), words.Say("report.near", CompareNotes.Tag(plan, e.Near)), words.Say("report.outside", words.Chance(e.Probability)), "–", PeakAt(net, e.Near, words), ZoneNotes.LookLine(plan, words, e),
        ]);
        foreach (var row in table.Items(zones.Concat(outside))) yield return row;
    }

    /// <summary>Findings of the service record as they stand.</summary>
    public static IEnumerable<FlowItem> Findings(Plan plan, ServiceRecord? record, Words words)
    {
        yield return NoteItems.Heading(words["report.on-record"]);
        var findings = record is null ? [] : ServiceFinding.Of(record);
        if (findings.Count == 0)
        {
            yield return NoteItems.Line(words["report.no-findings"]);
            yield break;
        }

        var table = new Table(
        [
            new(words["report.finding"], 2, Bold: true), new(words["report.case"], 3), new(words["report.status"], 5), new(words["report.component"], 4), new(words["report.order"], 2),
        ]);
        foreach (var row in table.Items(findings.Select(f => (IReadOnlyList<string>)
        [
            FindingWords.Short(plan, f, words), f.Entry.Fixture is { } id ? CompareNotes.Tag(plan, id) : f.Entry.Equipment ?? "", FindingWords.Status(f, words),
            string.Join(", ", new[] { f.Entry.Component, f.Entry.Repair }.Where(t => t is not null)), f.Entry.WorkOrder ?? "",
        ]))) yield return row;
    }

    private static string PeakAt(NetSurvey net, string fixture, Words words) =>
        net.Readings.Where(r => r.Reading.Place.Fixture == fixture && r.IsHit && !r.HitOnly).MaxBy(r => r.NetPpm) is { } highest ? words.Say("zone.above-room", ReadingsPass.Text(highest)) : "–";

    /// <summary>Fixtures with nothing above the detection level, and the smallest leak that would have shown.</summary>
    public static IEnumerable<FlowItem> Quiet(Plan plan, NetSurvey net, LocateResult located, Words words)
    {
        yield return NoteItems.Heading(words["report.quiet"]);
        yield return NoteItems.Line(words["report.quiet-note"], 1);
        var explained = located.NoLeakSeen.Where(n => n.ExplainedBy is not null).Select(n => CompareNotes.Tag(plan, n.Fixture)).ToList();
        if (explained.Count > 0) yield return NoteItems.Line(words.Say("report.quiet-explained", string.Join(", ", explained)), 1);
        var table = new Table(
        [
            new(words["report.case"], 4), new(words["report.sure-none"], 2.5), new(words["report.smallest-ppm"], 2, TextAnchor.End), new(words["report.smallest-weight"], 3, TextAnchor.End),
        ]);
        foreach (var row in table.Items(located.NoLeakSeen.Select(n => (IReadOnlyList<string>)
        [
            CompareNotes.Tag(plan, n.Fixture), words.Chance(n.Probability), Numbers.Ppm(n.SmallestSeenPpm),
            SmallestAYear(plan, n, words),
        ]))) yield return row;
    }

    // A plug-in unit can't lose in a year what it does not hold.
    private static string SmallestAYear(Plan plan, NoLeakSeen n, Words words) =>
        plan.FindFixture(n.Fixture)?.ChargeKilograms is { } charge && n.LowKilogramsPerYear > charge
            ? words.Say("report.beyond-charge", Lengths.Charge(plan.Units, charge))
            : $"{Lengths.Weight(plan.Units, n.LowKilogramsPerYear)} – {Lengths.Weight(plan.Units, n.HighKilogramsPerYear)}";

    /// <summary>The room levels taken off.</summary>
    public static IEnumerable<FlowItem> Rooms(NetSurvey net, Words words)
    {
        yield return NoteItems.Heading(words["report.rooms"]);
        var table = new Table([new(words["report.room"], 3), new(words["report.level"], 1.5, TextAnchor.End), new(words["report.readings"], 1.5, TextAnchor.End), new(words["report.remark"], 7)]);
        foreach (var row in table.Items(net.Rooms.Select(r => (IReadOnlyList<string>)[SurveyNotes.RoomName(r, words), Numbers.Ppm(r.Ppm), Numbers.Whole(r.Count), words.Remark(r.Reason ?? "")]))) yield return row;
    }

    /// <summary>Method and monitors.</summary>
    public static IEnumerable<FlowItem> Instruments(NetSurvey net, Words words)
    {
        yield return NoteItems.Heading(words["report.method"]);
        yield return NoteItems.Line(words["report.method-note"], 1);
        var table = new Table(
        [
            new(words["report.monitor"], 3), new(words["report.kind-of"], 3), new(words["report.limit"], 2, TextAnchor.End), new(words["report.range"], 2, TextAnchor.End),
            new(words["report.delay"], 2, TextAnchor.End), new(words["report.calibrated"], 3),
        ]);
        foreach (var row in table.Items(net.Survey.Instruments.Select(i => (IReadOnlyList<string>)
        [
            SurveyNotes.Monitor(i, words), words["instrument." + i.Kind.Kebab()], Numbers.Ppm(i.DetectionPpm), Numbers.Ppm(i.RangePpm), Numbers.Ppm(i.DelaySeconds), i.Calibrated is { } day ? Days.Of(day) : words["report.no-calibration"],
        ]))) yield return row;
    }
}
