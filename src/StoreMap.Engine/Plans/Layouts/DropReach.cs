namespace StoreMap.Plans;

/// <summary>Which fixtures a drop feeds when it does not say: those it comes down into or beside.</summary>
internal static class DropReach
{
    // About the depth of a case; across an aisle is farther.
    private const double Near = 1;

    /// <summary>The plan with near fixtures filled in for drops that name none; plug-in units hang on no line set.</summary>
    public static Plan WithNearFixtures(Plan plan) => plan with
    {
        Drops = [.. plan.Drops.Select(d => d.Fixtures.Count > 0 ? d : d with { Fixtures = NearTo(plan, d.At) })],
    };

    private static List<string> NearTo(Plan plan, PlanPoint at) =>
        [.. plan.Fixtures.Where(f => f.Kind != FixtureKind.SelfContained && Rings.Covers(f.Outline, at, Near)).Select(f => f.Id)];
}
