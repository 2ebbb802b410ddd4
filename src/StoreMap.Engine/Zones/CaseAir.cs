namespace StoreMap.Zones;

/// <summary>Steady air inside a line-up: along-axis dispersion and drift, loss to the aisle, section ends that block in part,
/// outer ends that are closed but for a drift's own air. D c'' - u c' - k c + source = 0 on the axis' cells, scaled by k.</summary>
/// <remarks>One tridiagonal solve of the transposed system per reading gives what that reading shows for a source in every
/// cell. Strength 1 is the source whose peak would be 1 ppm in an endless, calm, open line-up.</remarks>
internal static class CaseAir
{
    /// <summary>Metres of aisle over which gas that spilled from a case and is taken in again falls to 1/e.</summary>
    public const double ReturnMetres = 3.5;

    /// <summary>What comes back from the aisle to a reading for a source in each cell, at a share of 1.</summary>
    /// <param name="axis">The line-up.</param>
    /// <param name="reach">Reach of the moving air, metres.</param>
    /// <param name="s">Place of the reading, metres along the axis.</param>
    /// <param name="returned">Filled with one value per cell.</param>
    public static void Returned(LineUpAxis axis, double reach, double s, Span<double> returned)
    {
        for (var i = 0; i < returned.Length; i++) returned[i] = Spread.AisleTrace(Math.Abs(s - axis.Centres[i]), reach, ReturnMetres);
    }

    /// <summary>Adds a share of what comes back.</summary>
    public static void AddReturn(Span<double> response, double share, ReadOnlySpan<double> returned)
    {
        for (var i = 0; i < response.Length; i++) response[i] += share * returned[i];
    }
}
