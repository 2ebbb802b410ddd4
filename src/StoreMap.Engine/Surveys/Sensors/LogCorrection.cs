namespace StoreMap.Surveys;

/// <summary>The concentration at the tip, recovered from a log: one value for each interval between readings.</summary>
/// <param name="Seconds">Ends of the intervals at the tip, on the clock of the log: reading times less the delay (N). Interval k ends here and
/// begins at the entry before; the first is a moment.</param>
/// <param name="Ppm">Mean concentration of the interval, ppm, at least 0 (N).</param>
/// <param name="DeviationPpm">Its standard deviation, ppm (N).</param>
public sealed record CorrectedLog(double[] Seconds, double[] Ppm, double[] DeviationPpm)
{
    /// <summary>The value of the interval that holds a moment; the nearest one outside the log.</summary>
    public int IndexAt(double seconds)
    {
        var at = Array.BinarySearch(Seconds, seconds);
        return Math.Min(at >= 0 ? at : ~at, Ppm.Length - 1);
    }
}

/// <summary>Undoes delay and lag of a log without blowing up its noise: of all concentrations that never fall below zero and explain the
/// log, the one that changes least for its size. Formulas: docs/readings.md.</summary>
public static class LogCorrection
{
    private const double NonNegative = 1e6;
    private const int MostActiveSteps = 100;
    private const int EdgePasses = 8;

    /// <summary>Corrects a log.</summary>
    /// <param name="seconds">Reading times (N), ascending; readings of one moment share one value.</param>
    /// <param name="ppm">Numbers shown (N).</param>
    /// <param name="variances">Noise variance of each number, ppm² (N), greater than 0.</param>
    /// <param name="model">Delay and T90.</param>
    public static CorrectedLog Correct(
        IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, IReadOnlyList<double> variances, SensorModel model)
    {
        var moments = Moments.Part(seconds, ppm, variances, Moments.Least(model));
        var inverse = new LagInverse(moments.Seconds, moments.Ppm, moments.Variances, model);
        var variance = inverse.LikeliestChange();
        var weights = new double[moments.Seconds.Length];
        Array.Fill(weights, 1 / variance);
        var u = inverse.Solve(weights, NonNegative, MostActiveSteps);
        for (var pass = 0; pass < EdgePasses; pass++)
        {
            inverse.Reweight(u, variance, weights);
            u = inverse.Solve(weights, NonNegative, MostActiveSteps);
        }

        var deviations = inverse.Deviations(weights);
        double[] tip = [.. seconds.Select(s => s - model.DelaySeconds)];
        return new CorrectedLog(tip, [.. moments.Of.Select(m => Math.Max(0, u[m]))], [.. moments.Of.Select(m => deviations[m])]);
    }
}
