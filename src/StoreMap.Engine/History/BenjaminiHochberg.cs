namespace StoreMap.History;

/// <summary>Controls the share of false discoveries among many tests. Source: Benjamini and Hochberg 1995.</summary>
public static class BenjaminiHochberg
{
    /// <summary>Adjusts probabilities: those at or below a bound are discoveries with at most that share false.</summary>
    /// <param name="p">Probabilities in [0, 1], any order.</param>
    /// <returns>One adjusted probability each, in the same order: the least of p·n/rank over this and all larger ones, at most 1.</returns>
    public static double[] Adjust(IReadOnlyList<double> p)
    {
        var order = Enumerable.Range(0, p.Count).OrderByDescending(i => p[i]).ThenBy(i => i).ToArray();
        var adjusted = new double[p.Count];
        var least = 1.0;
        for (var k = 0; k < order.Length; k++)
        {
            least = Math.Min(least, p[order[k]] * ((double)p.Count / (p.Count - k)));
            adjusted[order[k]] = least;
        }

        return adjusted;
    }
}
