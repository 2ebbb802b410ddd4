using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.History;

/// <summary>One zone through the visits: what was located here at each, null where nothing was.</summary>
internal sealed class ZoneTrack(string fixture, int visits)
{
    public string Fixture { get; } = fixture;

    public LeakZone?[] Sightings { get; } = new LeakZone?[visits];

    public IEnumerable<LeakZone> Seen => Sightings.OfType<LeakZone>();

    public LeakZone Latest => Seen.Last();

    /// <summary>The whole stretch over all sightings; null in a walk-in.</summary>
    public (double From, double To)? Hull =>
        Seen.Any(z => z.From is null || z.To is null) ? null : (Seen.Min(z => z.From!.Value), Seen.Max(z => z.To!.Value));

    /// <summary>Distance of a place from the stretch, metres; 0 inside it and in a walk-in.</summary>
    public double DistanceTo(double along) => Hull is { } hull ? Math.Max(0, Math.Max(hull.From - along, along - hull.To)) : 0;

    /// <summary>Follows the zones of each visit to those of the visits before: one to one, nearest centres first, where the
    /// stretches overlap or nearly do. Independent of the order in which zones were listed.</summary>
    /// <returns>Tracks in the order of the plan's fixtures, then of their first sighting and place.</returns>
    public static IReadOnlyList<ZoneTrack> Follow(Plan plan, IReadOnlyList<SurveyVisit> visits, ComparisonSettings settings)
    {
        List<ZoneTrack> all = [];
        foreach (var fixture in Fixtures(plan, visits))
        {
            List<ZoneTrack> tracks = [];
            for (var v = 0; v < visits.Count; v++)
            {
                var zones = visits[v].Result.Zones.Where(z => z.Fixture == fixture && z.Probability >= settings.FoundProbability)
                    .OrderBy(z => z.From ?? 0).ThenBy(z => z.To ?? 0).ThenBy(z => z.At.X).ThenBy(z => z.At.Y).ThenByDescending(z => z.Probability).ToList();
                Match(tracks, zones, v, visits.Count, settings);
            }

            all.AddRange(tracks);
        }

        return all;
    }

    private static void Match(List<ZoneTrack> tracks, List<LeakZone> zones, int visit, int visits, ComparisonSettings settings)
    {
        var pairs =
            from t in Enumerable.Range(0, tracks.Count)
            from z in Enumerable.Range(0, zones.Count)
            let near = tracks[t].Seen.Where(s => Gap(s, zones[z]) <= settings.MatchGapMetres).Select(s => s.At.DistanceTo(zones[z].At)).ToList()
            where near.Count > 0
            orderby near.Min(), t, z
            select (t, z);
        var taken = new bool[zones.Count];
        foreach (var (t, z) in pairs.ToList())
        {
            if (taken[z] || tracks[t].Sightings[visit] is not null) continue;
            taken[z] = true;
            tracks[t].Sightings[visit] = zones[z];
        }

        for (var z = 0; z < zones.Count; z++)
        {
            if (taken[z]) continue;
            var track = new ZoneTrack(zones[z].Fixture, visits);
            track.Sightings[visit] = zones[z];
            tracks.Add(track);
        }
    }

    // Along a front: metres between the stretches, negative where they overlap. A walk-in is one place.
    private static double Gap(LeakZone a, LeakZone b) =>
        a.From is null || a.To is null || b.From is null || b.To is null ? 0 : Math.Max(a.From.Value, b.From.Value) - Math.Min(a.To.Value, b.To.Value);

    private static IEnumerable<string> Fixtures(Plan plan, IReadOnlyList<SurveyVisit> visits) =>
        plan.Fixtures.Select(f => f.Id).Concat(
            visits.SelectMany(v => v.Result.Zones).Select(z => z.Fixture).Where(id => plan.FindFixture(id) is null).Order(StringComparer.Ordinal)).Distinct();
}
