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
        var (first, second) = store.Leaks.Count == 2 ? Found(store.Leaks, likely) : (false, false);
        var listed = store.Leaks.Count == 2 ? Found(store.Leaks, result.Zones) : (false, false);
        return new StoreAnswer(stage, result.Zones.Count, likely.Count, onCases, elsewhere, first, second, listed is (true, true));
    }

    // Each zone can be the finding of one leak only: the nearest pairs first.
    private static (bool First, bool Second) Found(IReadOnlyList<StoreLeak> leaks, IReadOnlyList<LeakZone> zones)
    {
        var found = new bool[2];
        var pairs = leaks.SelectMany((l, i) => zones.Select((z, k) => (Leak: i, Zone: k, Feet: Feet(l, z))))
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

    // Found: on its fixture, inside the interval or within 4 ft of the middle.
    private static double? Feet(StoreLeak leak, LeakZone zone)
    {
        if (zone.Fixture != leak.Fixture) return null;
        if (zone.Center is not { } center) return 0;
        var feet = Math.Abs(center - leak.Along) / LengthUnits.MetresPerFoot;
        var inside = leak.Along >= zone.From && leak.Along <= zone.To;
        return inside || feet <= FoundFeet ? feet : null;
    }
}
