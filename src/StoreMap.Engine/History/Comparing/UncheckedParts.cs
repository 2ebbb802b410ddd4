using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Lists what of a system was not checked at a visit, in words.</summary>
internal static class UncheckedParts
{
    public static IReadOnlyList<string> Of(Plan plan, RefrigerationSystem system, SurveyVisit visit)
    {
        var coverage = visit.Survey.Survey.Coverage.FirstOrDefault(c => c.System == system.Id);
        List<string> parts = [.. coverage?.NotChecked ?? []];
        if (coverage is { Complete: true }) return parts;
        var readings = new VisitReadings(plan, [visit]);
        foreach (var fixture in plan.Fixtures)
        {
            if (IsOn(plan, fixture, system) && readings[0, fixture.Id].Count == 0) parts.Add($"{Name(fixture)}: not probed");
        }

        // A technician who wrote down what was not checked has said that the rest was.
        if (coverage is null)
        {
            foreach (var item in plan.Equipment.Where(e => e.System == system.Id && !WasChecked(visit, e))) parts.Add($"{item.Kind.Kebab().Replace('-', ' ')} {item.Id} ({item.Level}): no check on record");
            var pipes = plan.Pipes.Where(p => plan.Circuits.Any(c => c.Id == p.Circuit && c.System == system.Id)).Select(p => $"{p.Id} ({p.Level})").ToList();
            if (pipes.Count > 0) parts.Add($"pipe {(pipes.Count == 1 ? "run" : "runs")} {Words.And(pipes)}: no check on record");
        }

        foreach (var elsewhere in visit.Result.Elsewhere)
        {
            if (plan.FindFixture(elsewhere.Near) is { } near && IsOn(plan, near, system))
                parts.Add($"source of the gas near {Name(near)}, probably outside the case: {elsewhere.Look}");
        }

        return parts;
    }

    private static bool WasChecked(SurveyVisit visit, Equipment item) =>
        visit.Points?.Any(p => p.Equipment == item.Id && visit.Survey.Survey.Readings.Any(r => r.Place.Point == p.Id)) == true;

    /// <summary>True when the fixture, or a section of it, is on the system.</summary>
    internal static bool IsOn(Plan plan, Fixture fixture, RefrigerationSystem system) =>
        fixture.Sections.Count == 0 ? plan.SystemAt(fixture)?.Id == system.Id
        : fixture.Sections.Any(s => plan.SystemAt(fixture, s.From)?.Id == system.Id);

    private static string Name(Fixture fixture) => fixture.Name is null ? fixture.Tag : $"{fixture.Tag} ({fixture.Name})";
}
