using StoreMap.Simulation;

namespace StoreMap.Evaluation;

/// <summary>An estimate with a bootstrap interval.</summary>
/// <param name="Value">The estimate; NaN without data.</param>
/// <param name="Low">5 % point of the bootstrap.</param>
/// <param name="High">95 % point of the bootstrap.</param>
/// <param name="Count">Values it rests on.</param>
public readonly record struct Estimate(double Value, double Low, double High, int Count);

/// <summary>Statistics of scores.</summary>
internal static class Stats
{
    private const int Resamples = 1000;

    /// <summary>Percentile bootstrap (Efron and Tibshirani 1993, chapter 13), seeded.</summary>
    public static Estimate Bootstrap(IEnumerable<double> values, Func<double[], double> statistic)
    {
        double[] all = [.. values];
        if (all.Length == 0) return new Estimate(double.NaN, double.NaN, double.NaN, 0);
        var noise = new SeededNoise(20260301);
        var results = new double[Resamples];
        var sample = new double[all.Length];
        for (var r = 0; r < Resamples; r++)
        {
            for (var i = 0; i < sample.Length; i++) sample[i] = all[(int)(noise.Uniform() * all.Length)];
            results[r] = statistic(sample);
        }

        return new Estimate(statistic(all), Quantile(results, 0.05), Quantile(results, 0.95), all.Length);
    }

    public static Estimate Share(IEnumerable<bool> values) => Bootstrap(values.Select(v => v ? 1.0 : 0), Mean);

    public static Estimate MeanOf(IEnumerable<double> values) => Bootstrap(values, Mean);

    public static Estimate MedianOf(IEnumerable<double> values) => Bootstrap(values, v => Quantile(v, 0.5));

    public static Estimate NinetiethOf(IEnumerable<double> values) => Bootstrap(values, v => Quantile(v, 0.9));

    /// <summary>Median of one sample over that of another, resampled in pairs.</summary>
    public static Estimate RatioOfMedians(IReadOnlyList<double> above, IReadOnlyList<double> below) => Bootstrap(
        Enumerable.Range(0, above.Count).Select(i => (double)i),
        picked => Quantile([.. picked.Select(i => above[(int)i])], 0.5) / Quantile([.. picked.Select(i => below[(int)i])], 0.5));

    public static double Mean(double[] values) => values.Average();

    /// <summary>Quantile by linear interpolation between order statistics (type 7 of Hyndman and Fan 1996).</summary>
    public static double Quantile(double[] values, double share)
    {
        var sorted = (double[])values.Clone();
        Array.Sort(sorted);
        var at = share * (sorted.Length - 1);
        var low = (int)at;
        var high = Math.Min(low + 1, sorted.Length - 1);
        var part = at - low;
        return part == 0 || sorted[low] == sorted[high] ? sorted[low] : sorted[low] + (part * (sorted[high] - sorted[low]));
    }
}
