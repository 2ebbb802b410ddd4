namespace StoreMap.Plans;

/// <summary>What real layouts leave out: told once, and every step runs with less to go on.</summary>
internal static class GapRules
{
    /// <summary>Checks for missing entrances, fixtures, circuits and drops. What the file holds but could not be read is no gap.</summary>
    public static void Check(Plan plan, LayoutElements elements, ProblemList problems)
    {
        if (elements[LayoutLists.Entrances].Count == 0) problems.Warn(null, "entrances", null, "no-entrance", "No entrance is given; the walk begins wherever suits it.");
        if (elements[LayoutLists.Fixtures].Count == 0) problems.Warn(null, "fixtures", null, "no-fixture", "The layout has no fixture, so there is nothing to probe.");
        var fed = plan.Fixtures.Where(f => f.Kind != FixtureKind.SelfContained).ToList();
        if (fed.Count == 0) return;
        if (elements[LayoutLists.Circuits].Count == 0) problems.Warn(null, "circuits", null, "no-circuit", "No circuit is given, so the refrigerant of the fixtures is unknown.");
        if (elements[LayoutLists.Drops].Count == 0) problems.Warn(null, "drops", null, "no-drop", "No drop is given; leaks gather where line sets come down, and their places can't be weighed.");
        else if (elements[LayoutLists.Drops].Count == plan.Drops.Count) Drops(plan, fed, problems);
    }

    private static void Drops(Plan plan, List<Fixture> fed, ProblemList problems)
    {
        var served = plan.Drops.SelectMany(d => d.Fixtures).ToHashSet(StringComparer.Ordinal);
        foreach (var fixture in fed.Where(f => f.Front is not null))
        {
            if (!served.Contains(fixture.Id))
            {
                problems.Warn(fixture.Id, "drops", null, "no-drop", "No drop serves this case; where its line set comes down can't be weighed.");
            }
        }
    }
}
