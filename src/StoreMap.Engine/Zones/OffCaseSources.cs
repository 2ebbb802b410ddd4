using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>A place outside the cases that may be the source.</summary>
/// <param name="At">Plan metres.</param>
/// <param name="Share">Prior share among the candidates near a hit.</param>
/// <param name="Look">Where to look, in words.</param>
/// <param name="Known">False for a place that is not on the plan.</param>
internal sealed record OffCaseSource(PlanPoint At, double Share, string Look, bool Known);

/// <summary>Candidates outside the cases: drops, pipe runs, pits and trenches, doors of machine rooms, and places not on the plan.</summary>
internal static class OffCaseSources
{
    private const double NearMetres = 7;
    private const double PipeStepMetres = 1.5;

    /// <summary>Candidates near some readings, shares summing to 1.</summary>
    public static IReadOnlyList<OffCaseSource> Near(Plan plan, IReadOnlyList<PlanPoint> hits)
    {
        var groups = new List<(double Share, List<(PlanPoint At, string Look, bool Known)> Places)>
        {
            // A drop that lands inside a case is that case's own place and stands in its prior.
            (0.2, [.. plan.Drops.Where(d => !plan.Fixtures.Any(f => Rings.Covers(f.Outline, d.At, 0.001))).Select(d => (d.At, $"the line set at drop {d.Id}, above the case", true))]),
            (0.4, [.. plan.Pipes.SelectMany(PointsOf)]),
            (0.1, [.. plan.Pits.Select(p => (Middle(p.Outline), $"{p.Kind.Kebab()} {p.Id} under the floor", true))]),
            (0.05, [.. plan.Rooms.Where(r => r.Kind == RoomKind.Machine).SelectMany(r => r.Openings.Select(o => (o.Middle, $"the door of {r.Name}", true)))]),
            (0.25, [.. Unknown(hits).Select(p => (p, "lines overhead and under the floor here", false))]),
        };
        var found = new List<OffCaseSource>();
        foreach (var (share, places) in groups)
        {
            var near = places.Where(p => hits.Any(h => h.DistanceTo(p.At) < NearMetres)).ToList();
            found.AddRange(near.Select(p => new OffCaseSource(p.At, share / near.Count, p.Look, p.Known)));
        }

        var total = found.Sum(c => c.Share);
        return [.. found.Select(c => c with { Share = c.Share / total })];
    }

    private static IEnumerable<(PlanPoint At, string Look, bool Known)> PointsOf(Pipe pipe)
    {
        var steps = Math.Max(1, (int)Math.Ceiling(pipe.Path.Length / PipeStepMetres));
        var where = pipe.Level switch
        {
            "ceiling" => "overhead",
            "under-floor" => "under the floor",
            _ => pipe.Level,
        };
        for (var i = 0; i <= steps; i++)
        {
            yield return (pipe.Path.PointAt(pipe.Path.Length * i / steps), $"pipe run {pipe.Id}, {where}", true);
        }
    }

    // Hits, the places half way between them, and 1 m to either side: a source that nobody drew is near what it shows.
    private static IEnumerable<PlanPoint> Unknown(IReadOnlyList<PlanPoint> all)
    {
        var hits = new List<PlanPoint>();
        foreach (var hit in all)
        {
            if (hits.TrueForAll(h => h.DistanceTo(hit) > 1.2)) hits.Add(hit);
        }

        for (var i = 0; i < hits.Count; i++)
        {
            yield return hits[i];
            yield return hits[i] + new PlanPoint(1, 0);
            yield return hits[i] + new PlanPoint(-1, 0);
            yield return hits[i] + new PlanPoint(0, 1);
            yield return hits[i] + new PlanPoint(0, -1);
            if (i + 1 < hits.Count) yield return (hits[i] + hits[i + 1]) * 0.5;
        }
    }

    private static PlanPoint Middle(IReadOnlyList<PlanPoint> ring)
    {
        var sum = new PlanPoint(0, 0);
        foreach (var p in ring) sum += p;
        return sum * (1.0 / ring.Count);
    }
}
