using StoreMap.Plans;
using StoreMap.Simulation.Stores;
using StoreMap.Zones;

namespace StoreMap.Evaluation;

/// <summary>Scores answers for stores without a leak, with a source off the cases, or with two leaks.</summary>
internal static class StoreScore
{
    private const double FoundFeet = 4;

    public static StoreAnswer Of(SimulatedStore store, Stage stage, LocateResult result)
    {
        var likely = result.Zones.Where(z => z.Probability >= 0.5).ToList();
        var onCases = likely.Count(z => store.Plan.FindFixture(z.Fixture)!.Kind != FixtureKind.WalkIn);
        var elsewhere = result.Elsewhere.Where(e => !e.Unexplained).Select(e => e.Probability).DefaultIfEmpty(0).Max();
        if (store.Leaks.Count != 2) return new StoreAnswer(stage, result.Zones.Count, likely.Count, onCases, elsewhere, false, false, false, false);
        var (first, second) = Found(store.Plan, store.Leaks, likely, acrossJoints: false);
        var listed = Found(store.Plan, store.Leaks, result.Zones, acrossJoints: false) is (true, true);
        var near = Found(store.Plan, store.Leaks, likely, acrossJoints: true) is (true, true);
        return new StoreAnswer(stage, result.Zones.Count, likely.Count, onCases, elsewhere, first, second, listed, near);
    }

    // Each zone can be the finding of one leak only: the nearest pairs first.
    private static (bool First, bool Second) Found(Plan plan, IReadOnlyList<StoreLeak> leaks, IReadOnlyList<LeakZone> zones, bool acrossJoints)
    {
        var found = new bool[2];
        var pairs = leaks.SelectMany((l, i) => zones.Select((z, k) => (Leak: i, Zone: k, Feet: Feet(plan, l, z, acrossJoints))))
            .Where(p => p.Feet is not null).OrderBy(p => p.Feet).ToList();
        var used = new HashSet<int>();
        foreach (var (leak, zone, _) in pairs)
        {
            if (found[leak] || used.Contains(zone)) continue;
            found[leak] = true;
            used.Add(zone);
        }

        return (found[0], found[1]);
    }

    // Found: on its fixture, inside the interval or within 4 ft of the middle; across a joint only the latter.
    private static double? Feet(Plan plan, StoreLeak leak, LeakZone zone, bool acrossJoints)
    {
        if (zone.Fixture != leak.Fixture)
        {
            var (own, other) = (plan.FindFixture(leak.Fixture)!, plan.FindFixture(zone.Fixture)!);
            if (!acrossJoints || own.LineUp is null || own.LineUp != other.LineUp || zone.Center is not { } middle) return null;
            var apart = other.Front!.PointAt(middle).DistanceTo(leak.At) / LengthUnits.MetresPerFoot;
            return apart <= FoundFeet ? apart : null;
        }

        if (zone.Center is not { } center) return 0;
        var feet = Math.Abs(center - leak.Along) / LengthUnits.MetresPerFoot;
        var inside = leak.Along >= zone.From && leak.Along <= zone.To;
        return inside || feet <= FoundFeet ? feet : null;
    }
}
