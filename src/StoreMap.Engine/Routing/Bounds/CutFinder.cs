namespace StoreMap.Routing;

/// <summary>Finds inequalities that a relaxed tour breaks.</summary>
internal static class CutFinder
{
    private const double Broken = 1e-3;
    private const int MostAtOnce = 120;

    /// <summary>Values of about 0 and 1 left out, parts of what remains are the classic handles (Padberg and Hong 1980; Grötschel and
    /// Holland 1991).</summary>
    private static readonly double[] Margins = [1e-6, 0.1, 0.2, 0.3, 0.4];

    /// <summary>Broken crossings; when there are none, broken 2-matching inequalities.</summary>
    public static IEnumerable<TourCut> Find(SupportGraph graph)
    {
        var crossings = Crossings(graph).Take(MostAtOnce).ToList();
        return crossings.Count > 0 ? crossings : Blossoms(graph).Take(MostAtOnce);
    }

    /// <summary>Sets whose border is crossed less than twice; exact.</summary>
    public static IEnumerable<TourCut> Crossings(SupportGraph graph)
    {
        var parts = graph.Parts(1e-6, 2);
        if (parts.Count > 1) return parts.Select(p => new TourCut(Set(graph.Count, p), []));
        // Edges of value 1 may be drawn together: some lightest border does not cut them (Padberg and Rinaldi 1990).
        return SmallCuts.Of(graph.Parts(1 - 1e-9, 2), graph, graph.Value, 2 - Broken).Select(p => new TourCut(Set(graph.Count, p), []));
    }

    private static IEnumerable<TourCut> Blossoms(SupportGraph graph)
    {
        var seen = new HashSet<string>();
        foreach (var handle in Handles(graph))
        {
            if (Best(graph, handle) is { } cut && seen.Add(cut.Key())) yield return cut;
        }
    }

    private static IEnumerable<List<int>> Handles(SupportGraph graph)
    {
        foreach (var margin in Margins)
        {
            foreach (var part in graph.Parts(margin, 1 - margin).Where(p => p.Count > 2)) yield return part;
        }

        foreach (var margin in Margins)
        {
            foreach (var part in graph.Parts(margin, 2).Where(p => p.Count > 2 && p.Count < graph.Count - 2)) yield return part;
        }

        // A broken inequality has a border that weighs less than 1 when each edge counts by its distance from 0 or 1 (Letchford,
        // Reinelt and Theis 2008).
        // Such borders lie within the parts that hang together by values between 0 and 1.
        double[] weight = [.. graph.Value.Select(v => Math.Min(v, 1 - v))];
        foreach (var part in graph.Parts(1e-6, 1 - 1e-6).Where(p => p.Count > 2))
        {
            var single = part.Select(i => new List<int> { i }).ToList();
            foreach (var handle in SmallCuts.Of(single, graph, weight, 1 - Broken)) yield return handle;
        }
    }

    /// <summary>The handle with the teeth that break the inequality most; null when it holds.</summary>
    private static TourCut? Best(SupportGraph graph, List<int> handle)
    {
        var inside = Set(graph.Count, handle);
        var (sum, odd, least, swing) = (0.0, false, double.PositiveInfinity, -1);
        var teeth = new List<int>();
        for (var e = 0; e < graph.A.Length; e++)
        {
            if (inside[graph.A[e]] == inside[graph.B[e]]) continue;
            var value = graph.Value[e];
            sum += Math.Min(value, 1 - value);
            if (value > 0.5)
            {
                teeth.Add(e);
                odd = !odd;
            }

            var cost = Math.Abs(1 - (2 * value));
            if (cost < least) (least, swing) = (cost, e);
        }

        if (!odd && swing >= 0)
        {
            sum += least;
            if (!teeth.Remove(swing)) teeth.Add(swing);
        }

        if (sum >= 1 - Broken || teeth.Count == 0) return null;
        // One tooth says no more than two crossings do.
        return new TourCut(inside, teeth.Count == 1 ? [] : [.. teeth.Select(e => (graph.A[e], graph.B[e]))]);
    }

    private static bool[] Set(int count, List<int> stops)
    {
        var inside = new bool[count];
        foreach (var stop in stops) inside[stop] = true;
        return inside;
    }
}
