namespace StoreMap.Zones;

/// <summary>The air under a line-up's pans and behind its kick plates: a space of its own, without fans and without section ends, that
/// loses gas through the gaps of the kick plates.</summary>
/// <remarks>Priors (docs/zones.md): cross-section 0.2 m² (kick plate 4 to 10 in high, case about 1 m deep); loss through the gaps
/// 0.003 m²/s for a metre of front, log-sd 0.9, half of what a shut door case was measured to lose; dispersion between that of still
/// rooms (0.001 to 0.013 m²/s, Cheng et al. 2011) and that of passages (0.06 to 0.12 m²/s), 0.02 with log-sd 1.2. Reach and loss hang
/// together, L² = D A / q: a long reach speaks for a small loss.</remarks>
internal static class BaseAir
{
    private const double MiddleExchange = 0.003;
    private const double ExchangeLogDeviation = 0.9;
    private const double Dispersion = 0.02;
    private const double DispersionLogDeviation = 1.2;
    private const double Section = 0.2;

    // Log-normal reach of those priors (middle 1.15 m, log-sd 0.75) on four points.
    private static readonly double[] Reach = [0.5, 1.1, 2.3, 4.5];
    private static readonly double[] ReachWeight = [0.22, 0.4, 0.28, 0.1];
    private static readonly double[] Drift = [-0.35, 0, 0.35];
    private static readonly double[] DriftWeight = [0.25, 0.5, 0.25];

    private static double ReachVariance => 0.25 * ((DispersionLogDeviation * DispersionLogDeviation) + (ExchangeLogDeviation * ExchangeLogDeviation));

    /// <summary>Deviation of the logarithm of <see cref="ExchangePerMetre"/>, given the reach.</summary>
    public static double ExchangeDeviation
    {
        get
        {
            var variance = ExchangeLogDeviation * ExchangeLogDeviation;
            return Math.Sqrt(variance - (0.25 * variance * variance / ReachVariance));
        }
    }

    /// <summary>Air settings of the base, whatever the fans do.</summary>
    public static AirSetting[] Settings { get; } =
        [.. Reach.SelectMany((r, i) => Drift.Select((d, j) => new AirSetting(r, d, 0, ReachWeight[i] * DriftWeight[j])))];

    /// <summary>Air the base exchanges with the aisle, m³/s for a metre of front, at a reach: the mean of its logarithm given the
    /// reach, by the regression of two normal variables.</summary>
    public static double ExchangePerMetre(double reachMetres)
    {
        var middle = Math.Sqrt(Dispersion * Section / MiddleExchange);
        var slope = -0.5 * ExchangeLogDeviation * ExchangeLogDeviation / ReachVariance;
        return MiddleExchange * Math.Pow(reachMetres / middle, slope);
    }
}
