using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Puts the fixtures of a line-up end to end, as one walks along them.</summary>
internal static class LineUpOrder
{
    /// <summary>Joins runs of points so that the walk between runs is shortest: from each possible start the nearest end follows, and
    /// the best chain is kept, of equals the first.</summary>
    public static List<ProbePoint> Of(IReadOnlyList<List<ProbePoint>> runs)
    {
        var (best, shortest) = (new List<ProbePoint>(), double.PositiveInfinity);
        for (var start = 0; start < 2 * runs.Count; start++)
        {
            var (chain, gaps) = From(runs, start / 2, start % 2 == 1);
            if (gaps < shortest) (best, shortest) = (chain, gaps);
        }

        return best;
    }

    private static (List<ProbePoint> Chain, double Gaps) From(IReadOnlyList<List<ProbePoint>> runs, int first, bool backward)
    {
        var chain = new List<ProbePoint>(Run(runs[first], backward));
        var left = Enumerable.Range(0, runs.Count).Where(r => r != first).ToList();
        var gaps = 0.0;
        while (left.Count > 0)
        {
            var end = chain[^1].Stand;
            var next = left.SelectMany(r => new[] { (Run: r, Backward: false), (Run: r, Backward: true) })
                .MinBy(c => end.DistanceTo(Run(runs[c.Run], c.Backward).First().Stand));
            gaps += end.DistanceTo(Run(runs[next.Run], next.Backward).First().Stand);
            chain.AddRange(Run(runs[next.Run], next.Backward));
            left.Remove(next.Run);
        }

        return (chain, gaps);
    }

    private static IEnumerable<ProbePoint> Run(List<ProbePoint> run, bool backward) => backward ? run.AsEnumerable().Reverse() : run;
}
