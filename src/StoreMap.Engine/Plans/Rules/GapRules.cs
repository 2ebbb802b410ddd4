namespace StoreMap.Plans;

/// <summary>What real layouts leave out: told once, and every step runs with less to go on.</summary>
internal static class GapRules
{
    // A drop that stands this near a case serves it, whether or not it says so: the depth of a case.
    private const double DropReach = 1;

    /// <summary>Checks for missing entrances, fixtures, circuits and drops.</summary>
    public static void Check(Plan plan, ProblemList problems)
    {
        if (plan.Entrances.Count == 0) problems.Warn(null, "entrances", null, "no-entrance", "No entrance is given; the walk begins wherever suits it.");
        if (plan.Fixtures.Count == 0) problems.Warn(null, "fixtures", null, "no-fixture", "The layout has no fixture, so there is nothing to probe.");
        var fed = plan.Fixtures.Where(f => f.Kind != FixtureKind.SelfContained).ToList();
        if (fed.Count == 0) return;
        Circuits(plan, fed, problems);
        Drops(plan, fed, problems);
    }

    private static void Circuits(Plan plan, List<Fixture> fed, ProblemList problems)
    {
        if (plan.Circuits.Count == 0)
        {
            problems.Warn(null, "circuits", null, "no-circuit", "No circuit is given, so the refrigerant of the fixtures is unknown.");
            return;
        }

        foreach (var fixture in fed)
        {
            if (fixture.WalkInCircuit is null && !fixture.Sections.Any(s => s.Circuit is not null))
            {
                problems.Warn(fixture.Id, "circuit", null, "no-circuit", "The fixture names no circuit, so its refrigerant is unknown.");
            }
        }
    }

    private static void Drops(Plan plan, List<Fixture> fed, ProblemList problems)
    {
        if (plan.Drops.Count == 0)
        {
            problems.Warn(null, "drops", null, "no-drop", "No drop is given; leaks gather where line sets come down, and their places can't be weighed.");
            return;
        }

        foreach (var fixture in fed.Where(f => f.Front is not null))
        {
            if (!plan.Drops.Any(d => d.Fixtures.Contains(fixture.Id) || Rings.Covers(fixture.Outline, d.At, DropReach)))
            {
                problems.Warn(fixture.Id, "drops", null, "no-drop", "No drop serves this case; where its line set comes down can't be weighed.");
            }
        }
    }
}
