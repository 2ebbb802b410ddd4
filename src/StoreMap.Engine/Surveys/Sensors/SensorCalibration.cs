namespace StoreMap.Surveys;

/// <summary>Delay and T90 of a sampling line, estimated from a puff test, with standard deviations.</summary>
/// <param name="DelaySeconds">Seconds from tip to sensor.</param>
/// <param name="DelayDeviation">Its standard deviation, seconds.</param>
/// <param name="T90Seconds">Seconds from 0 to 90 % of a step.</param>
/// <param name="T90Deviation">Its standard deviation, seconds.</param>
/// <param name="ResidualPpm">Root mean square of what the fit leaves, ppm.</param>
/// <param name="Puffs">Seconds for which each puff lasted; infinity for one that did not end within the log. Empty when the concentration was known.</param>
public sealed record SensorEstimate(
    double DelaySeconds, double DelayDeviation, double T90Seconds, double T90Deviation, double ResidualPpm, IReadOnlyList<double> Puffs)
{
    /// <summary>The model with these values.</summary>
    public SensorModel Model => new(DelaySeconds, T90Seconds);
}

/// <summary>Estimates delay and T90 by least squares from a log in which gas was held to the tip at known moments.</summary>
/// <remarks>Model and formulas: docs/readings.md. The heights of the puffs and the clean level are eliminated in closed form at each
/// step (variable projection, Golub and Pereyra 1973); the rest is found by <see cref="LeastSquares"/> from several starts.</remarks>
public static class SensorCalibration
{
    /// <summary>Longest delay and T90 that are looked for, seconds.</summary>
    public const double MostSeconds = 60;

    private const double LeastSeconds = 0.05;
    private const int FullFits = 3;
    private static readonly double[] DelayStarts = [1, 3, 5, 8, 12, 20];
    private static readonly double[] T90Starts = [2, 6, 14, 30];

    /// <summary>Fits when only the moments are known at which the puffs began: their heights, lengths and the clean level are found too.</summary>
    /// <param name="seconds">Sample times (N), ascending.</param>
    /// <param name="ppm">The log (N).</param>
    /// <param name="starts">When each puff began, on the clock of the log; at least one.</param>
    /// <param name="resolutionPpm">Display step, ppm: the deviations are never below what it allows.</param>
    /// <exception cref="RefusedInputException">The log is too short, or shows no gas after a start.</exception>
    public static SensorEstimate FitStarts(
        IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, IReadOnlyList<double> starts, double resolutionPpm)
    {
        var puffs = starts.Order().ToArray();
        PuffLog.Check(seconds, ppm, puffs, resolutionPpm);
        PuffFit? best = null;
        foreach (var lengths in PuffLog.LengthGuesses(seconds, ppm, puffs))
        {
            // A coarse look at all starts, and a full fit from the most promising few.
            var guesses = DelayStarts.SelectMany(d => T90Starts.Select(t => (Delay: d, T90: t)))
                .OrderBy(g => PuffFit.SumOfSquares(seconds, ppm, puffs, lengths, g.Delay, g.T90)).Take(FullFits);
            foreach (var (delay, t90) in guesses)
            {
                var fit = PuffFit.From(seconds, ppm, puffs, lengths, delay, t90);
                if (best is null || fit.Score < best.Score) best = fit;
            }
        }

        return best!.Estimate(resolutionPpm);
    }

    /// <summary>Fits when the concentration at the tip is known.</summary>
    /// <param name="seconds">Sample times (N), ascending.</param>
    /// <param name="ppm">The log (N).</param>
    /// <param name="basePpm">Concentration before the first change.</param>
    /// <param name="events">Its changes.</param>
    /// <param name="resolutionPpm">Display step, ppm.</param>
    public static SensorEstimate Fit(
        IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, double basePpm, IReadOnlyList<SignalEvent> events, double resolutionPpm)
    {
        double[] Residuals(double[] p)
        {
            var model = new SensorModel(p[0], p[1]);
            var residuals = new double[ppm.Count];
            for (var i = 0; i < residuals.Length; i++) residuals[i] = ppm[i] - model.Respond(basePpm, events, seconds[i]);
            return residuals;
        }

        var best = DelayStarts.SelectMany(d => T90Starts.Select(t => new[] { d, t }))
            .OrderBy(p => Residuals(p).Sum(r => r * r)).Take(FullFits)
            .Select(p => LeastSquares.Fit(p, [0, LeastSeconds], [MostSeconds, MostSeconds], Residuals))
            .MinBy(f => f.SumOfSquares);
        var deviations = best!.Deviations(resolutionPpm * resolutionPpm / 12);
        return new SensorEstimate(
            best.Parameters[0], deviations[0], best.Parameters[1], deviations[1], Math.Sqrt(best.SumOfSquares / ppm.Count), []);
    }
}
