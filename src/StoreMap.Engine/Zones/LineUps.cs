using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Finds the line-ups of a plan: fixtures of one line-up whose fronts follow each other end to end.</summary>
internal static class LineUps
{
    /// <summary>Ends of two fronts at most this far apart are joined: room for end panels and for a corner's depth, metres.</summary>
    private const double JoinMetres = 0.6;

    /// <summary>Lays every fixture with a front on an axis, in the plan's order of first fixtures.</summary>
    public static IReadOnlyList<LineUpAxis> Of(Plan plan)
    {
        var axes = new List<LineUpAxis>();
        var done = new HashSet<string>();
        foreach (var fixture in plan.Fixtures)
        {
            if (fixture.Front is null || done.Contains(fixture.Id)) continue;
            var pool = fixture.LineUp is null
                ? [fixture]
                : plan.Fixtures.Where(f => f.Front is not null && f.LineUp == fixture.LineUp && !done.Contains(f.Id)).ToList();
            var chain = ChainFrom(fixture, pool);
            foreach (var link in chain) done.Add(link.Fixture.Id);
            axes.Add(new LineUpAxis([.. chain.Select(c => c.Fixture)], [.. chain.Select(c => c.Turned)]));
        }

        return axes;
    }

    private static List<(Fixture Fixture, bool Turned)> ChainFrom(Fixture first, List<Fixture> pool)
    {
        var chain = new List<(Fixture Fixture, bool Turned)> { (first, false) };
        pool = [.. pool.Where(f => f != first)];
        while (Nearest(pool, Outer(chain[^1], atEnd: true), chain[^1].Fixture) is { } next)
        {
            chain.Add(next);
            pool.Remove(next.Fixture);
        }

        while (Nearest(pool, Outer(chain[0], atEnd: false), chain[0].Fixture) is { } before)
        {
            chain.Insert(0, (before.Fixture, !before.Turned));
            pool.Remove(before.Fixture);
        }

        return chain;
    }

    private static PlanPoint Outer((Fixture Fixture, bool Turned) link, bool atEnd) =>
        atEnd != link.Turned ? link.Fixture.Front!.Points[^1] : link.Fixture.Front!.Points[0];

    // The fixture whose nearer end meets the open end, seen as the next link; turned when that end is its front's last point.
    private static (Fixture Fixture, bool Turned)? Nearest(List<Fixture> pool, PlanPoint end, Fixture last)
    {
        (Fixture Fixture, bool Turned)? best = null;
        var bestGap = JoinMetres;
        foreach (var fixture in pool)
        {
            var atStart = fixture.Front!.Points[0].DistanceTo(end);
            var atEnd = fixture.Front.Points[^1].DistanceTo(end);
            var gap = Math.Min(atStart, atEnd);
            if (gap >= bestGap || BackToBack(fixture, last)) continue;
            bestGap = gap;
            best = (fixture, atEnd < atStart);
        }

        return best;
    }

    private static bool BackToBack(Fixture a, Fixture b) =>
        a.OutwardAt(a.Front!.Length / 2).Dot(b.OutwardAt(b.Front!.Length / 2)) < -0.5;
}
