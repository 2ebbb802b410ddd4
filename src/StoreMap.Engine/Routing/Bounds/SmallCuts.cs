namespace StoreMap.Routing;

/// <summary>Sets with a light border, by the phases of a minimum cut search (Nagamochi and Ibaraki 1992; Stoer and Wagner 1997).</summary>
internal static class SmallCuts
{
    /// <summary>The border of each phase that weighs less than a limit, the lightest one among them.</summary>
    /// <param name="groups">What is held together; the groups are the nodes.</param>
    /// <param name="graph">Edges.</param>
    /// <param name="weight">Weight of each edge, at least 0.</param>
    /// <param name="limit">Heavier borders are left out.</param>
    public static IEnumerable<List<int>> Of(List<List<int>> groups, SupportGraph graph, double[] weight, double limit)
    {
        var n = groups.Count;
        if (n < 2) yield break;
        var node = new int[graph.Count];
        Array.Fill(node, -1);
        for (var g = 0; g < n; g++)
        {
            foreach (var stop in groups[g]) node[stop] = g;
        }

        var between = new double[n * n];
        for (var e = 0; e < graph.A.Length; e++)
        {
            var (a, b) = (node[graph.A[e]], node[graph.B[e]]);
            if (a == b || a < 0 || b < 0) continue;
            between[(a * n) + b] += weight[e];
            between[(b * n) + a] += weight[e];
        }

        List<List<int>> held = [.. groups.Select(g => new List<int>(g))];
        List<int> live = [.. Enumerable.Range(0, n)];
        var pull = new double[n];
        var taken = new bool[n];
        while (live.Count > 1)
        {
            foreach (var v in live) (pull[v], taken[v]) = (0, false);
            var (last, before) = (-1, -1);
            for (var k = 0; k < live.Count; k++)
            {
                var next = -1;
                foreach (var v in live)
                {
                    if (!taken[v] && (next < 0 || pull[v] > pull[next])) next = v;
                }

                taken[next] = true;
                (before, last) = (last, next);
                if (k == live.Count - 1) break;
                foreach (var v in live) pull[v] += between[(next * n) + v];
            }

            if (pull[last] < limit) yield return [.. held[last]];
            held[before].AddRange(held[last]);
            live.Remove(last);
            foreach (var v in live)
            {
                if (v == before) continue;
                between[(before * n) + v] += between[(last * n) + v];
                between[(v * n) + before] = between[(before * n) + v];
            }
        }
    }
}
