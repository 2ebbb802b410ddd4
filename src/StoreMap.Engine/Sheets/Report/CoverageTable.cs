using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>What of each system was covered.</summary>
internal static class CoverageTable
{
    /// <summary>A reading this near something is a reading of it, metres.</summary>
    private const double Reach = 1.5;

    /// <summary>True when every system is ticked complete: never taken from the readings.</summary>
    public static bool IsComplete(Plan plan, NetSurvey net) =>
        net.Survey.Coverage.Count > 0 && plan.Systems.All(s => net.Survey.Coverage.Any(c => c.System == s.Id && c.Complete));

    /// <summary>Equipment with no reading at a joint near it, and not of a system ticked complete.</summary>
    public static IReadOnlyList<Equipment> UncheckedEquipment(Plan plan, NetSurvey net) =>
    [
        .. plan.Equipment.Where(e => !net.Survey.Coverage.Any(c => c.System == e.System && c.Complete)
            && !net.Readings.Any(r => r.Reading.Place.Fixture is null && r.Reading.Spot == Spot.Joint && r.Reading.Place.At.DistanceTo(e.At) < Reach)),
    ];

    /// <summary>Pipe runs without a check on record: all but those of systems whose coverage was stated. A reading under a run is no check of it.</summary>
    public static IReadOnlyList<Pipe> UncheckedPipes(Plan plan, NetSurvey net) =>
        [.. plan.Pipes.Where(p => !net.Survey.Coverage.Any(c => c.System == plan.Circuits.FirstOrDefault(x => x.Id == p.Circuit)?.System))];

    public static IEnumerable<FlowItem> Items(Plan plan, NetSurvey net, Words words)
    {
        if (plan.Systems.Count == 0) yield break;
        yield return NoteItems.Heading(words["report.coverage"]);
        yield return NoteItems.Line(words[IsComplete(plan, net) ? "report.complete" : "report.leak-survey"], 1);
        var table = new Table(
        [
            new(words["balance.of-system"], 3, Bold: true), new(words["report.charge"], 2, TextAnchor.End), new(words["report.cases-probed"], 2.4, TextAnchor.End),
            new(words["report.equipment-read"], 2.4, TextAnchor.End), new(words["report.ticked"], 2.4), new(words["report.noted-head"], 5),
        ]);
        var probed = net.Readings.Select(r => r.Reading.Place.Fixture).OfType<string>().ToHashSet();
        var unread = UncheckedEquipment(plan, net).Select(e => e.Id).ToHashSet();
        foreach (var row in table.Items(plan.Systems.Select(s =>
        {
            var fixtures = plan.Fixtures.Where(f => f.Sections.Count == 0 ? plan.SystemAt(f)?.Id == s.Id : f.Sections.Any(x => plan.SystemAt(f, x.From)?.Id == s.Id)).ToList();
            var equipment = plan.Equipment.Where(e => e.System == s.Id).ToList();
            var coverage = net.Survey.Coverage.FirstOrDefault(c => c.System == s.Id);
            return (IReadOnlyList<string>)
            [
                $"{s.Id} {s.Refrigerant}".TrimEnd(), s.ChargeKilograms is { } charge ? Lengths.Charge(plan.Units, charge) : "–",
                words.Say("report.of", fixtures.Count(f => probed.Contains(f.Id)), fixtures.Count), words.Say("report.of", equipment.Count(e => !unread.Contains(e.Id)), equipment.Count),
                words[coverage is { Complete: true } ? "report.yes" : "report.no"], coverage is { NotChecked.Count: > 0 } ? string.Join(", ", coverage.NotChecked) : words["report.noted-none"],
            ];
        }))) yield return row;
    }
}
