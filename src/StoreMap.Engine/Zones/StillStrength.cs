using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>What one block's readings say of the strength in one cell: weights over ln ppm on an even grid, summing to 1.</summary>
/// <param name="First">ln ppm of the first.</param>
/// <param name="Step">Step in ln ppm.</param>
/// <param name="Mass">The weights.</param>
internal sealed record StrengthProfile(double First, double Step, double[] Mass)
{
    private const int NormalPoints = 33;
    private const double NormalReach = 4;

    /// <summary>That of a normal law of ln ppm, out to four deviations.</summary>
    public static StrengthProfile Normal(double mean, double variance)
    {
        var step = 2 * NormalReach / (NormalPoints - 1);
        var density = Enumerable.Range(0, NormalPoints).Select(g => NormalLaw.Density((g * step) - NormalReach)).ToArray();
        var sum = density.Sum();
        var deviation = Math.Sqrt(variance);
        return new StrengthProfile(mean - (NormalReach * deviation), step * deviation, [.. density.Select(d => d / sum)]);
    }
}

/// <summary>How the strength of one kind of source in still air goes with that in moving air.</summary>
/// <param name="LogRatio">Mean of ln still over moving strength.</param>
/// <param name="Deviation">Its deviation.</param>
/// <param name="StillMean">Prior mean of ln still strength by itself, ppm.</param>
/// <param name="StillDeviation">Its deviation.</param>
internal readonly record struct StrengthLink(double LogRatio, double Deviation, double StillMean, double StillDeviation);

/// <summary>How a leak's strength in still air goes with that in moving air. It is an unknown of its own, since the coil's pressure is another,
/// but no free one: what lost 30 ppm's worth to the running fans gathers when they stop, and a case that then shows nothing was breathing
/// its neighbour's gas. The base does not feel the fans: its gas neither gathers nor goes.</summary>
internal static class StillStrength
{
    /// <summary>Prior mean of ln ppm in still air where the moving air was not read: 25 ppm.</summary>
    public static double LogMean { get; } = Math.Log(25);

    /// <summary>Deviation of that logarithm.</summary>
    public const double LogDeviation = 2;

    /// <summary>Chance that the two have nothing to do with each other: a coil pumped down, a valve shut before the leak.</summary>
    private const double Apart = 0.05;

    /// <summary>Middle reach of moving air, of that in the base, metres, and dispersion of still air, m²/s.</summary>
    private const double MiddleReach = 1.2, BaseReach = 1.15, MiddleDispersion = 0.0035;

    /// <summary>Cross-section of a case's air, m².</summary>
    private const double Section = 0.85;

    /// <summary>Share of the running coil's strength that is left with its feed closed.</summary>
    private const double PressureShare = 0.8;

    // Deviations of logarithms, in squares: of a leak at the coil reach 0.6, air exchanged 0.55, dispersion of still air 0.4, pressure of the coil with its feed
    // closed or in defrost 0.8, cross-section 0.2; of a source above, of whose gas still air may draw in little, 1.6 in all; of one in the base that pressure and,
    // in each state, the share that crosses into the case's air.
    private const double CoilDeviation = 1.2, AboveDeviation = 1.6;
    private static readonly double BaseDeviation = Math.Sqrt((0.8 * 0.8) + (2 * AirSetting.CrossLogDeviation * AirSetting.CrossLogDeviation));

    /// <summary>ln of the still peak, <see cref="StillAir.UnitSeconds"/> after the stop, over the moving one: G = 2 L q c holds the moving air's peak c, and
    /// G · <see cref="StillAir.UnitPeak"/> / A is the still air's.</summary>
    public static double LogRatio(Fixture fixture) => Math.Log(
        2 * MiddleReach * RoughStrength.ExchangePerMetre(fixture) * PressureShare * StillAir.UnitPeak(MiddleDispersion) / Section);

    /// <summary>The link for a kind of source in a line-up.</summary>
    public static StrengthLink Of(SourceKind kind, Plan plan, Fixture fixture) => kind switch
    {
        SourceKind.Base => new(
            Math.Log(PressureShare), BaseDeviation, RoughStrength.PriorLogMean - Math.Log(RoughStrength.PerPeakPpm(plan, fixture, 0, BaseReach, basePiping: true)), RoughStrength.BaseLogDeviation),
        SourceKind.Above => new(LogRatio(fixture), AboveDeviation, LogMean, LogDeviation),
        _ => new(LogRatio(fixture), CoilDeviation, LogMean, LogDeviation),
    };

    /// <summary>ln of the factor by which a pair of strengths is likelier together than each by its own prior.</summary>
    /// <param name="link">How the two hang together.</param>
    /// <param name="moving">Mean of ln strength in moving air.</param>
    /// <param name="movingVariance">Its variance.</param>
    /// <param name="still">ln strength in still air.</param>
    public static double LogTogether(StrengthLink link, double moving, double movingVariance, double still)
    {
        var variance = (link.Deviation * link.Deviation) + movingVariance;
        var (given, own) = (still - moving - link.LogRatio, (still - link.StillMean) / link.StillDeviation);
        return Math.Log(Apart + ((1 - Apart) * link.StillDeviation / Math.Sqrt(variance) * Math.Exp((0.5 * own * own) - (0.5 * given * given / variance))));
    }

    /// <summary>Adds to each cell's evidence what its two strengths say of each other; between evaluated cells it is interpolated.</summary>
    /// <param name="log">Evidence per cell, from both states taken apart.</param>
    /// <param name="link">How the two hang together.</param>
    /// <param name="moving">Per cell the strength in moving air; null where not evaluated.</param>
    /// <param name="still">The same in still air.</param>
    public static void Join(double[] log, StrengthLink link, StrengthProfile?[] moving, StrengthProfile?[] still)
    {
        var (last, lastValue) = (-1, 0.0);
        for (var c = 0; c < log.Length; c++)
        {
            if (moving[c] is not { } on || still[c] is not { } off) continue;
            var value = LogTogether(link, on, off);
            if (last < 0) last = c - 1;
            for (var k = last + 1; k <= c; k++) log[k] += lastValue + ((value - lastValue) * (last + 1 == c ? 1 : (double)(k - last) / (c - last)));
            (last, lastValue) = (c, value);
        }
    }

    /// <summary>The same for what both states' readings say of the strengths, summed over it.</summary>
    /// <param name="link">How the two hang together.</param>
    /// <param name="moving">In moving air; its mean and variance count.</param>
    /// <param name="still">In still air.</param>
    public static double LogTogether(StrengthLink link, StrengthProfile moving, StrengthProfile still)
    {
        var (mean, square) = (0.0, 0.0);
        for (var g = 0; g < moving.Mass.Length; g++)
        {
            var u = moving.First + (g * moving.Step);
            mean += moving.Mass[g] * u;
            square += moving.Mass[g] * u * u;
        }

        var variance = Math.Max(0, square - (mean * mean));
        var sum = 0.0;
        for (var g = 0; g < still.Mass.Length; g++)
        {
            if (still.Mass[g] > 1e-9) sum += still.Mass[g] * Math.Exp(LogTogether(link, mean, variance, still.First + (g * still.Step)));
        }

        return Math.Log(sum);
    }
}
