namespace StoreMap.Routing;

/// <summary>Even steps along a length.</summary>
internal static class Steps
{
    /// <summary>Rounding of lengths given in feet, metres.</summary>
    private const double Slack = 1e-9;

    /// <summary>The middles of equal pieces no longer than the step: every place is within half a step of one.</summary>
    public static double[] Middles(double length, double step)
    {
        var n = Math.Max(1, (int)Math.Ceiling((length / step) - Slack));
        return [.. Enumerable.Range(0, n).Select(i => (i + 0.5) * length / n)];
    }
}
