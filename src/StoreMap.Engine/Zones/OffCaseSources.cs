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
    private const double UnknownMetres = 2.5;
    private const double UnknownStepMetres = 1.0;
    private const double AboveMetres = 1;
    private const double PipeMetres = 1.8;

    /// <summary>Candidates near some readings, shares summing to 1. What is not on the plan may be anywhere near: a grid that does not
    /// ask where the gas was read, so that it competes with what is drawn on equal terms.</summary>
    public static IReadOnlyList<OffCaseSource> Near(Plan plan, IReadOnlyList<PlanPoint> hits)
    {
        var groups = new List<(double Share, List<(PlanPoint At, string Look, bool Known)> Places)>
        {
            (0.2, [.. plan.Drops.Select(d => (d.At, $"the line set at drop {d.Id}, above the case", true))]),
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

    /// <summary>The nearest thing on the plan above a place on a front, or what nobody drew.</summary>
    public static OffCaseSource Above(Plan plan, PlanPoint at)
    {
        var drop = plan.Drops.Where(d => d.At.DistanceTo(at) < AboveMetres).MinBy(d => d.At.DistanceTo(at));
        if (drop is not null) return new OffCaseSource(drop.At, 1, $"the line set at drop {drop.Id}, above the case", true);
        var pipe = plan.Pipes.Where(IsAbove).SelectMany(PointsOf).Where(p => p.At.DistanceTo(at) < PipeMetres).OrderBy(p => p.At.DistanceTo(at)).FirstOrDefault();
        return pipe.Look is not null ? new OffCaseSource(pipe.At, 1, pipe.Look, true) : new OffCaseSource(at, 1, "lines overhead here", false);
    }

    /// <summary>True for a pipe run whose gas sinks on what is beneath it.</summary>
    public static bool IsAbove(Pipe pipe) => pipe.Level is not ("under-floor" or "case-base");

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

    // A grid over all places near gas.
    private static IEnumerable<PlanPoint> Unknown(IReadOnlyList<PlanPoint> hits)
    {
        if (hits.Count == 0) yield break;
        var (left, columns) = Axis(hits.Min(h => h.X), hits.Max(h => h.X));
        var (bottom, rows) = Axis(hits.Min(h => h.Y), hits.Max(h => h.Y));
        for (var r = 0; r <= rows; r++)
        {
            for (var c = 0; c <= columns; c++)
            {
                var p = new PlanPoint(left + (c * UnknownStepMetres), bottom + (r * UnknownStepMetres));
                if (hits.Any(h => h.DistanceTo(p) < UnknownMetres)) yield return p;
            }
        }
    }

    // The grid lies evenly about the middle of the gas.
    private static (double First, int Steps) Axis(double from, double to)
    {
        var steps = (int)Math.Ceiling((to - from + (2 * UnknownMetres)) / UnknownStepMetres);
        return (((from + to) - (steps * UnknownStepMetres)) / 2, steps);
    }

    private static PlanPoint Middle(IReadOnlyList<PlanPoint> ring)
    {
        var sum = new PlanPoint(0, 0);
        foreach (var p in ring) sum += p;
        return sum * (1.0 / ring.Count);
    }
}
