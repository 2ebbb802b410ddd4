using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>What one block's readings say of the strength in one cell: weights over ln ppm on an even grid, summing to 1.</summary>
/// <param name="First">ln ppm of the first.</param>
/// <param name="Step">Step in ln ppm.</param>
/// <param name="Mass">The weights.</param>
internal sealed record StrengthProfile(double First, double Step, double[] Mass);

/// <summary>How a leak's strength in still air goes with that in moving air. It is an unknown of its own, since the coil's pressure is another,
/// but no free one: what lost 30 ppm's worth to the running fans gathers when they stop, and a case that then shows nothing was breathing
/// its neighbour's gas.</summary>
internal static class StillStrength
{
    /// <summary>Prior mean of ln ppm in still air where the moving air was not read: 25 ppm.</summary>
    public static double LogMean { get; } = Math.Log(25);

    /// <summary>Deviation of that logarithm.</summary>
    public const double LogDeviation = 2;

    /// <summary>Deviation of ln strength in still air given that in moving air: reach 0.6, air exchanged 0.55, dispersion of still air 0.4, pressure of
    /// the coil with its feed closed or in defrost 0.8, cross-section 0.2, in squares.</summary>
    private const double GivenMovingDeviation = 1.2;

    /// <summary>The same for a source above the case, of whose gas still air may draw in little.</summary>
    private const double AboveDeviation = 1.6;

    /// <summary>Chance that the two have nothing to do with each other: a coil pumped down, a valve shut before the leak.</summary>
    private const double Apart = 0.05;

    /// <summary>Middle reach of moving air, metres, and dispersion of still air, m²/s.</summary>
    private const double MiddleReach = 1.2, MiddleDispersion = 0.0035;

    /// <summary>Cross-section of a case's air, m².</summary>
    private const double Section = 0.85;

    /// <summary>Share of the running coil's strength that is left with its feed closed.</summary>
    private const double PressureShare = 0.8;

    /// <summary>ln of the still peak, <see cref="StillAir.UnitSeconds"/> after the stop, over the moving one: G = 2 L q c holds the moving air's peak c, and
    /// G · <see cref="StillAir.UnitPeak"/> / A is the still air's.</summary>
    public static double LogRatio(Fixture fixture) => Math.Log(
        2 * MiddleReach * RoughStrength.ExchangePerMetre(fixture) * PressureShare * StillAir.UnitPeak(MiddleDispersion) / Section);

    /// <summary>ln of the factor by which a pair of strengths is likelier together than each by its own prior.</summary>
    /// <param name="logRatio">From <see cref="LogRatio"/>.</param>
    /// <param name="moving">Mean of ln strength in moving air.</param>
    /// <param name="movingVariance">Its variance.</param>
    /// <param name="still">ln strength in still air.</param>
    /// <param name="above">True for a source above the case.</param>
    public static double LogTogether(double logRatio, double moving, double movingVariance, double still, bool above)
    {
        var deviation = above ? AboveDeviation : GivenMovingDeviation;
        var variance = (deviation * deviation) + movingVariance;
        var (given, own) = (still - moving - logRatio, (still - LogMean) / LogDeviation);
        return Math.Log(Apart + ((1 - Apart) * LogDeviation / Math.Sqrt(variance) * Math.Exp((0.5 * own * own) - (0.5 * given * given / variance))));
    }

    /// <summary>Adds to each cell's evidence what its two strengths say of each other; between evaluated cells it is interpolated.</summary>
    /// <param name="log">Evidence per cell, from both states taken apart.</param>
    /// <param name="logRatio">From <see cref="LogRatio"/>.</param>
    /// <param name="moving">Per cell the strength in moving air; null where not evaluated.</param>
    /// <param name="still">The same in still air.</param>
    /// <param name="above">True for a source above the case.</param>
    public static void Join(double[] log, double logRatio, StrengthProfile?[] moving, StrengthProfile?[] still, bool above)
    {
        var (last, lastValue) = (-1, 0.0);
        for (var c = 0; c < log.Length; c++)
        {
            if (moving[c] is not { } on || still[c] is not { } off) continue;
            var value = OfCell(logRatio, on, off, above);
            if (last < 0) last = c - 1;
            for (var k = last + 1; k <= c; k++) log[k] += lastValue + ((value - lastValue) * (last + 1 == c ? 1 : (double)(k - last) / (c - last)));
            (last, lastValue) = (c, value);
        }
    }

    private static double OfCell(double logRatio, StrengthProfile moving, StrengthProfile still, bool above)
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
            if (still.Mass[g] > 1e-9) sum += still.Mass[g] * Math.Exp(LogTogether(logRatio, mean, variance, still.First + (g * still.Step), above));
        }

        return Math.Log(sum);
    }
}
