using System.Globalization;
using System.Text;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Web.Solving;

/// <summary>Turns a store's service record into words for the desk.</summary>
internal static class FindingText
{
    public static FindingsAnswer Of(VisitBench bench, DeskInput input, DateOnly day)
    {
        var state = bench.Service(input);
        var states = input.Visits.Select(v => (v.Survey, State: bench.StateOf(v))).ToList();
        using var file = new MemoryStream();
        state.File.Write(file);
        return new FindingsAnswer(
            [.. state.Stories.Select(s => Line(bench, state, s, states, day)).Reverse().OrderBy(l => l.Done)],
            PanelText.Score(bench.Plan, states.Select(s => s.State.Panels)) is { } score ? $"{score}. Of the leaks confirmed, so many were behind the first panel lifted for them." : null,
            [.. state.Conflicts.Concat(state.LeftOut.Select(p => p.Message).Distinct()).Select(m => Named(bench.Plan, state, m))], Encoding.UTF8.GetString(file.ToArray()));
    }

    // The record's own messages have its ids.
    private static string Named(Plan plan, ServiceState state, string message) =>
        state.Stories.Select(s => s.Finding.Entry.Finding).Distinct().OrderByDescending(id => id.Length).Aggregate(message, (m, id) => m.Replace(id, FindingName.Of(plan, id), StringComparison.Ordinal));

    private static FindingLine Line(VisitBench bench, ServiceState state, FindingStory story, IReadOnlyList<(string Survey, JournalState State)> visits, DateOnly day)
    {
        var (plan, finding, now) = (bench.Plan, story.Finding, story.Finding.Entry);
        var due = RepairDues.Of(plan, state.File.Record, finding, day);
        var fixture = plan.FindFixture(now.Fixture);
        var system = RepairDues.SystemOf(plan, finding);
        var panels = story.Lines.Select(l => l.Panel).OfType<FoundPanel>().Select(p => (p.Survey, p.Look.Panel)).ToHashSet();
        return new FindingLine(
            now.Finding, fixture is null ? now.Equipment ?? now.Fixture ?? "?" : Say.Fixture(fixture), Where(bench.Shown, fixture, now), Status(now.Status), Stand(finding),
            due is var (what, by) ? Due(what, by, day) : null, due?.By < day, now.Status == FindingStatus.FollowedUp || (finding.Verified is not null && due is null), story.IsApart,
            [.. Entries(plan, story)], [.. story.TakenBack.Select(e => $"{e.Body["entry"]!["date"].Text()}: {e.Body["entry"]!["status"].Text()}, taken back")],
            [.. visits.SelectMany(v => v.State.Events.Where(e => e.Kind == JournalKinds.Photo && e.Body["panel"].Text() is { } panel && e.Body["photo"].Text() is not null && panels.Contains((v.Survey, panel))).Select(e => new FindingPhoto($"surveys/{v.Survey}", e.Body["photo"].Text()!))), .. story.Photos.Select(p => new FindingPhoto($"stores/{plan.Id}", p))],
            story.Latest, [.. ServiceSteps.After(now.Status).Select(s => s.ToString())], finding, system?.Id, system is null ? null : fixture is null ? system.Refrigerant : plan.RefrigerantAt(fixture, now.Along ?? 0));
    }

    private static IEnumerable<FindingEntry> Entries(Plan plan, FindingStory story)
    {
        FindingStatus? before = null;
        var first = story.Lines[0].Entry;
        foreach (var line in story.Lines)
        {
            var e = line.Entry;
            var id = line.Event?.Id;
            yield return new FindingEntry(
                line.Event?.Device == JournalEvent.FileDevice ? null : id, id, Day(e.Date), What(line, before, ReferenceEquals(e, first)), [.. Details(e), .. Weights(plan, story, line)], e.Technician, line.Panel?.Survey);
            before = e.Status;
        }

        // Weighed on a day without an entry.
        foreach (var w in story.Weights.Where(w => LineOf(story, w) is null)) yield return new FindingEntry(null, null, Day(w.Movement.Date), Weight(plan, w.Movement), [], null, null);
    }

    private static string What(ServiceLine line, FindingStatus? before, bool first)
    {
        if (line.Panel is { } panel) return $"Leak confirmed {line.Entry.Spot ?? panel.Look.Panel}";
        return line.Entry.Status == before && line.Entry.Repair is null && line.Entry.Tests.Count == 0 ? "Note" : first && line.Entry.Status == FindingStatus.Open ? "Found" : Status(line.Entry.Status);
    }

    private static IEnumerable<string> Details(ServiceEntry e)
    {
        if (e.Component is not null || e.Fault is not null) yield return string.Join(", ", new[] { e.Component, e.Fault }.OfType<string>());
        if (e.Pinpointed is { } how) yield return $"Pinpointed: {how}";
        if (e.Repair is { } repair) yield return repair;
        foreach (var t in e.Tests) yield return $"{(t.Kind == "initial" ? "Initial" : "Follow-up")} test{(t.Date == e.Date ? "" : " of " + Day(t.Date))}, {t.Method}: {(t.Passed ? "passed" : "failed")}";
        if (e.Note is { } note) yield return note;
        if (e.WorkOrder is not null || e.Certificate is not null) yield return string.Join(", ", new[] { e.WorkOrder is { } w ? $"work order {w}" : null, e.Certificate is { } c ? $"certificate {c}" : null }.OfType<string>());
    }

    // Weighed with the entry; a file's weights stand with its last entry of their day.
    private static IEnumerable<string> Weights(Plan plan, FindingStory story, ServiceLine line) =>
        story.Weights.Where(w => ReferenceEquals(LineOf(story, w), line)).Select(w => Weight(plan, w.Movement));

    private static ServiceLine? LineOf(FindingStory story, ServiceWeight weight) =>
        story.Lines.FirstOrDefault(l => l.Event is not null && l.Event.Id == weight.Event?.Id)
        ?? story.Lines.LastOrDefault(l => l.Event?.Device == JournalEvent.FileDevice && l.Entry.Date == weight.Movement.Date);

    private static string Weight(Plan plan, RefrigerantMovement m)
    {
        string Of(double kilograms) => string.Create(CultureInfo.InvariantCulture, $"{(plan.Units.IsCustomary() ? kilograms / LengthUnits.KilogramsPerPound : kilograms):0.##} {(plan.Units.IsCustomary() ? "lb" : "kg")}");
        var parts = new[] { m.AddedKilograms > 0 ? $"{Of(m.AddedKilograms)} added" : null, m.RecoveredKilograms > 0 ? $"{Of(m.RecoveredKilograms)} recovered" : null };
        return $"{m.Refrigerant}, system {m.System}: {string.Join(", ", parts.OfType<string>())}";
    }

    private static string Where(Plan plan, Fixture? fixture, ServiceEntry now)
    {
        var parts = new List<string>();
        if (fixture is not null && now.Along is { } along) parts.Add($"{Say.Length(plan.Units, fixture.FromLeft(along))} from the left");
        if (now.Section is { } section) parts.Add($"section {section.ToString(CultureInfo.InvariantCulture)}");
        if (now.Spot is { } spot) parts.Add(spot);
        return string.Join(", ", parts);
    }

    private static string Due(RepairDue due, DateOnly by, DateOnly day)
    {
        var late = by < day;
        return due switch
        {
            RepairDue.Repair => $"Repair and a passed initial test {(late ? "were" : "are")} due by {Day(by)}, where the US rules apply.",
            RepairDue.FollowUpTest => $"The follow-up test {(late ? "was" : "is")} due by {Day(by)}, where the US rules apply.",
            _ => $"A check by a certified person, after 24 hours of running, {(late ? "was" : "is")} due by {Day(by)}, where the EU rules apply.",
        };
    }

    // Beside the status, so without its word.
    private static string Stand(ServiceFinding f) => f.Entry.Status switch
    {
        FindingStatus.Verified or FindingStatus.FollowedUp => f.InWords(),
        FindingStatus.Repaired => $"{Day(f.Repaired ?? f.Entry.Date)}, not yet verified",
        _ => $"since {Day(f.Entry.Status == FindingStatus.Open ? f.Opened : f.Reopened ?? f.Entry.Date)}{(f.Entry.Tests.LastOrDefault(t => !t.Passed && t.Date >= (f.Reopened ?? f.Opened)) is { } t ? $", the {t.Kind} test failed" : "")}",
    };

    private static string Status(FindingStatus status) => status switch
    {
        FindingStatus.FollowedUp => "Followed up",
        _ => status.ToString(),
    };

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
