using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>How gas reaches readings outside the line-up it leaks in, through the air of the aisle: an analytic stand-in for the
/// room's dispersion, wide enough to hold the truth.</summary>
internal static class Spread
{
    /// <summary>How a case's gas spreads in its aisle: the share of its own ppm just in front, the metres over which that falls to 1/e,
    /// and the prior weight.</summary>
    public static (double Share, double Metres, double Weight)[] AisleAir { get; } =
    [
        (0.01, 2, 0.12), (0.04, 2, 0.13), (0.15, 2, 0.12), (0.6, 2, 0.05),
        (0.01, 5, 0.14), (0.04, 5, 0.15), (0.15, 5, 0.13), (0.6, 5, 0.06),
        (0.01, 14, 0.03), (0.04, 14, 0.04), (0.15, 14, 0.03),
    ];

    /// <summary>How far along the aisle its air carries what a case spills, metres, and the prior weights: draughts of a few cm/s against
    /// a loss in minutes.</summary>
    public static (double Metres, double Weight)[] AisleShifts { get; } = [(-1.5, 0.25), (0, 0.5), (1.5, 0.25)];

    /// <summary>Factors on what a line-up takes in of gas from outside, and their prior weights: doors take in less than open cases.</summary>
    public static (double LogFactor, double Weight)[] Intakes { get; } = [(-0.7, 0.25), (0, 0.5), (0.7, 0.25)];

    /// <summary>The same with the line-up's fans off: what drew the aisle's air in stands still, and what leaks nearby may leak with still air too,
    /// so that more or less of it comes than with fans on.</summary>
    public static (double LogFactor, double Weight)[] StillIntakes { get; } = [(-2.2, 0.15), (-1.3, 0.2), (-0.5, 0.25), (0.3, 0.25), (1.1, 0.15)];

    /// <summary>Widths of the trace of a source overhead or under the floor, metres, and their prior weights.</summary>
    public static (double Metres, double Weight)[] OffCaseWidths { get; } = [(1.2, 0.25), (2.2, 0.45), (4, 0.3)];

    /// <summary>Metres over which the tail of such a trace falls to 1/e, as a share of its width.</summary>
    private const double TailShare = 0.8;

    /// <summary>Prior mean of ln ppm that a source outside the cases brings to fronts beneath it: 8 ppm.</summary>
    public const double OffCaseLogMean = 2.08;

    /// <summary>Prior deviation of that logarithm.</summary>
    public const double OffCaseLogDeviation = 1.5;

    /// <summary>Share of an aisle's ppm that a probe held in another case's air shows.</summary>
    private const double TakenIn = 0.6;

    /// <summary>The reach at which a peak's spill is counted as 1.</summary>
    private const double UnitReach = 1.2;

    /// <summary>Farther readings are not touched, metres.</summary>
    public const double FarthestMetres = 20;

    /// <summary>Logarithmic deviation of gas from outside a line-up: its share taken in differs from case to case.</summary>
    public const double OutsideLogDeviation = 0.5;

    /// <summary>Logarithmic deviation from reading to reading of gas that a line-up takes in from the aisle, beyond the noise all readings have: its
    /// dispersion has smoothed it.</summary>
    public const double AisleLogDeviation = 0.15;

    /// <summary>Logarithmic deviations of that share along a front, one of them true for a line-up: plumes in the aisle wander, and a case
    /// takes in where they touch it.</summary>
    public static double[] StrayDeviations { get; } = [0.1, 0.5, 0.9];

    /// <summary>Length over which the share keeps its deviation (1/e), metres.</summary>
    public const double StrayMetres = 5;

    /// <summary>Variance of what each reading's logarithm shows of a source outside the cases, beyond the noise all share.</summary>
    public const double OffCaseVariance = 0.25;

    /// <summary>Relative ppm of aisle air at a distance from a leak: the case's own trace spread again by the aisle (two exponentials
    /// convolved), 1 and flat at the leak.</summary>
    /// <param name="distance">Metres.</param>
    /// <param name="reach">Reach of the case's trace, metres.</param>
    /// <param name="metres">Reach of the aisle's air, metres.</param>
    public static double AisleTrace(double distance, double reach, double metres)
    {
        if (Math.Abs(metres - reach) < 0.02 * metres) metres = 1.03 * reach;
        return ((metres * Math.Exp(-distance / metres)) - (reach * Math.Exp(-distance / reach))) / (metres - reach);
    }

    /// <summary>Where the parts of a case's trace lie of which each spills a sixth, in reaches to either side of the leak: the medians of sixths of a two-sided
    /// exponential.</summary>
    public static double[] TraceParts { get; } = [-1.79, -0.69, -0.18, 0.18, 0.69, 1.79];

    /// <summary>Relative ppm of aisle air at a reading for gas that a case spills along its trace: 1 and flat close by the leak.</summary>
    /// <param name="distances">Metres through the aisles from each of <see cref="TraceParts"/> (<see cref="AisleWays"/>).</param>
    /// <param name="reach">Reach of the case's trace, metres.</param>
    /// <param name="metres">Reach of the aisle's air, metres.</param>
    public static double AlongTrace(ReadOnlySpan<double> distances, double reach, double metres)
    {
        var (sum, atLeak) = (0.0, 0.0);
        for (var i = 0; i < distances.Length; i++)
        {
            sum += Fall(distances[i], metres);
            atLeak += Fall(Math.Abs(TraceParts[i]) * reach, metres);
        }

        return Math.Min(1, sum / atLeak);
    }

    /// <summary>ppm at a reading for a leak in another line-up.</summary>
    /// <param name="relative">What <see cref="AlongTrace"/> says.</param>
    /// <param name="peakPpm">Strength.</param>
    /// <param name="reach">Its reach, metres: wide traces spill more.</param>
    /// <param name="share">Share of the case's ppm in its aisle.</param>
    /// <param name="inCase">True for a probe in a case's air, false in the open.</param>
    public static double FromCase(double relative, double peakPpm, double reach, double share, bool inCase) =>
        peakPpm * (reach / UnitReach) * share * (inCase ? TakenIn : 1) * relative;

    /// <summary>Relative ppm at a reading for a source outside the cases: round near its place, over which the gas sinks, and an
    /// exponential tail, as dispersion with loss has it. So a far reading's neighbours share its gas: nothing peaks far from its source.</summary>
    public static double FromOffCase(PlanPoint source, double width, PlanPoint at)
    {
        var d = source.DistanceTo(at);
        return d > FarthestMetres ? 0 : Math.Exp((width - Math.Sqrt((d * d) + (width * width))) / (TailShare * width));
    }

    private static double Fall(double distance, double metres) => distance > FarthestMetres ? 0 : Math.Exp(-Math.Max(0, distance - 1) / metres);
}
