using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>How gas reaches readings outside the line-up it leaks in, through the air of the aisle: an analytic stand-in for the
/// room's dispersion, wide enough to hold the truth.</summary>
internal static class Spread
{
    /// <summary>Shares of a case's own ppm that its aisle holds just in front of it, and their prior weights.</summary>
    public static (double Share, double Weight)[] AisleShares { get; } = [(0.015, 0.3), (0.05, 0.4), (0.15, 0.3)];

    /// <summary>Widths of the trace of a source overhead or under the floor, metres, and their prior weights.</summary>
    public static (double Metres, double Weight)[] OffCaseWidths { get; } = [(1.2, 0.25), (2.2, 0.45), (4, 0.3)];

    /// <summary>Prior mean of ln ppm that a source outside the cases brings to fronts beneath it: 8 ppm.</summary>
    public const double OffCaseLogMean = 2.08;

    /// <summary>Prior deviation of that logarithm.</summary>
    public const double OffCaseLogDeviation = 1.5;

    /// <summary>Metres over which aisle air loses a trace to 1/e.</summary>
    private const double AisleMetres = 2.5;

    /// <summary>Share of an aisle's ppm that a probe held in another case's air shows.</summary>
    private const double TakenIn = 0.6;

    /// <summary>The reach at which a peak's spill is counted as 1.</summary>
    private const double UnitReach = 1.2;

    /// <summary>Farther readings are not touched, metres.</summary>
    public const double FarthestMetres = 12;

    /// <summary>ppm at a reading for a leak in another line-up.</summary>
    /// <param name="source">Place of the leak on its front, plan metres.</param>
    /// <param name="peakPpm">Strength.</param>
    /// <param name="reach">Its reach, metres: wide traces spill more.</param>
    /// <param name="share">Aisle share.</param>
    /// <param name="at">Place of the reading.</param>
    /// <param name="inCase">True for a probe in a case's air, false in the open.</param>
    public static double FromCase(PlanPoint source, double peakPpm, double reach, double share, PlanPoint at, bool inCase)
    {
        var d = source.DistanceTo(at);
        return d > FarthestMetres ? 0 : peakPpm * (reach / UnitReach) * share * (inCase ? TakenIn : 1) * Math.Exp(-Math.Max(0, d - 1) / AisleMetres);
    }

    /// <summary>Relative ppm at a reading for a source outside the cases.</summary>
    public static double FromOffCase(PlanPoint source, double width, PlanPoint at)
    {
        var d = source.DistanceTo(at);
        return d > 4 * width ? 0 : Math.Exp(-0.5 * d * d / (width * width));
    }
}
