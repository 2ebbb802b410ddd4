namespace StoreMap.Plans;

/// <summary>Lays factory lengths along a front whose drawn length differs a little, by end panels and rounding.</summary>
internal static class LengthFit
{
    /// <summary>The cuts between the pieces, from 0 to the front's length.</summary>
    /// <param name="lengths">One or more lengths, metres, each above 0.</param>
    /// <param name="frontLength">The front's length, metres.</param>
    /// <returns>lengths.Count + 1 rising distances. The difference is split evenly between the two ends, so that the joints
    /// stand where they are when the end panels are alike; where an end piece is too short for that, all are scaled.</returns>
    public static double[] Cuts(IReadOnlyList<double> lengths, double frontLength)
    {
        var sum = lengths.Sum();
        var shift = (frontLength - sum) / 2;
        var scaled = lengths.Count > 1 && (lengths[0] + shift <= 0 || lengths[^1] + shift <= 0);
        var cuts = new double[lengths.Count + 1];
        var run = 0.0;
        for (var i = 1; i < lengths.Count; i++)
        {
            run += lengths[i - 1];
            cuts[i] = scaled ? run * (frontLength / sum) : run + shift;
        }

        cuts[^1] = frontLength;
        return cuts;
    }

    /// <summary>True when the lengths miss the front's by no more than end panels do: 6 in.</summary>
    public static bool Fits(IReadOnlyList<double> lengths, double frontLength) =>
        Math.Abs(lengths.Sum() - frontLength) <= LayoutLimits.Slack + LayoutLimits.Tiny;
}
