namespace StoreMap.Zones;

/// <summary>Interval and median of a probability spread over cells.</summary>
internal static class PlaceSummary
{
    /// <summary>The shortest stretch of cells that holds at least a level, ends inside cells by linear interpolation.</summary>
    /// <param name="edges">Cell edges, ascending, one more than cells.</param>
    /// <param name="mass">Probability per cell, sum 1.</param>
    /// <param name="level">In (0, 1).</param>
    public static (double From, double To) Shortest(double[] edges, double[] mass, double level)
    {
        var cumulative = new double[mass.Length + 1];
        for (var i = 0; i < mass.Length; i++) cumulative[i + 1] = cumulative[i] + mass[i];
        var total = cumulative[^1];
        var best = (From: edges[0], To: edges[^1]);
        // The shortest interval of a piecewise constant density begins or ends at a cell edge.
        foreach (var start in cumulative)
        {
            if (start + (level * total) > total * (1 + 1e-12)) break;
            Try(Quantile(edges, cumulative, start), Quantile(edges, cumulative, start + (level * total)));
        }

        foreach (var end in cumulative)
        {
            if (end < level * total * (1 - 1e-12)) continue;
            Try(Quantile(edges, cumulative, end - (level * total)), Quantile(edges, cumulative, end));
        }

        return best;

        void Try(double from, double to)
        {
            if (to - from < best.To - best.From - 1e-12) best = (from, to);
        }
    }

    /// <summary>The median.</summary>
    public static double Median(double[] edges, double[] mass)
    {
        var cumulative = new double[mass.Length + 1];
        for (var i = 0; i < mass.Length; i++) cumulative[i + 1] = cumulative[i] + mass[i];
        return Quantile(edges, cumulative, cumulative[^1] / 2);
    }

    private static double Quantile(double[] edges, double[] cumulative, double value)
    {
        var i = Array.BinarySearch(cumulative, value);
        if (i >= 0) return edges[i];
        i = ~i;
        if (i <= 0) return edges[0];
        if (i >= cumulative.Length) return edges[^1];
        return edges[i - 1] + ((edges[i] - edges[i - 1]) * (value - cumulative[i - 1]) / (cumulative[i] - cumulative[i - 1]));
    }
}
