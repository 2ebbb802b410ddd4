using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The tables of a report.</summary>
internal static class ReportTables
{
    /// <summary>Findings of the service record as they stand.</summary>
    public static IEnumerable<FlowItem> Findings(Plan plan, ServiceRecord? record, Words words)
    {
        yield return NoteItems.Heading(words["report.findings"]);
        var findings = record is null ? [] : ServiceFinding.Of(record);
        if (findings.Count == 0)
        {
            yield return NoteItems.Line(words["report.no-findings"]);
            yield break;
        }

        var table = new Table(
        [
            new(words["report.finding"], 2, Bold: true), new(words["report.case"], 4), new(words["report.status"], 3), new(words["report.component"], 5), new(words["report.order"], 2),
        ]);
        foreach (var row in table.Items(findings.Select(f => (IReadOnlyList<string>)
        [
            f.Entry.Finding, f.Entry.Fixture is { } id ? CompareNotes.Tag(plan, id) : f.Entry.Equipment ?? "", words["status." + f.Entry.Status.Kebab()],
            string.Join(", ", new[] { f.Entry.Component, f.Entry.Repair }.Where(t => t is not null)), f.Entry.WorkOrder ?? "",
        ]))) yield return row;
    }

    /// <summary>Fixtures with nothing above the detection level, and the smallest leak that would have shown.</summary>
    public static IEnumerable<FlowItem> Quiet(Plan plan, LocateResult located, Words words)
    {
        yield return NoteItems.Heading(words["report.quiet"]);
        yield return NoteItems.Line(words["report.quiet-note"], 1);
        var table = new Table(
        [
            new(words["report.case"], 4), new(words["report.sure"], 2), new(words["report.smallest-ppm"], 2, TextAnchor.End), new(words["report.smallest-weight"], 3, TextAnchor.End),
        ]);
        foreach (var row in table.Items(located.NoLeakSeen.Select(n => (IReadOnlyList<string>)
        [
            CompareNotes.Tag(plan, n.Fixture), Numbers.Chance(n.Probability), Numbers.Ppm(n.SmallestSeenPpm),
            $"{Lengths.Weight(plan.Units, n.LowKilogramsPerYear)} – {Lengths.Weight(plan.Units, n.HighKilogramsPerYear)}",
        ]))) yield return row;
    }

    /// <summary>The room levels taken off.</summary>
    public static IEnumerable<FlowItem> Rooms(NetSurvey net, Words words)
    {
        yield return NoteItems.Heading(words["report.rooms"]);
        var table = new Table([new(words["report.room"], 3), new(words["report.level"], 1.5, TextAnchor.End), new(words["report.readings"], 1.5, TextAnchor.End), new(words["report.remark"], 7)]);
        foreach (var row in table.Items(net.Rooms.Select(r => (IReadOnlyList<string>)[r.Name, Numbers.Ppm(r.Ppm), Numbers.Whole(r.Count), r.Reason ?? ""]))) yield return row;
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
            i.Id, i.Kind.Kebab(), Numbers.Ppm(i.DetectionPpm), Numbers.Ppm(i.RangePpm), Numbers.Ppm(i.DelaySeconds), i.Calibrated is { } day ? Days.Of(day) : words["report.no-calibration"],
        ]))) yield return row;
    }
}
