using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>One lag of an empirical variogram.</summary>
/// <param name="Pairs">Pairs of sample points in it.</param>
/// <param name="Distance">Their mean distance, metres.</param>
/// <param name="Gamma">Half their mean squared difference.</param>
public readonly record struct VariogramBin(int Pairs, double Distance, double Gamma);

/// <summary>The empirical variogram: gamma = sum (zi − zj)² / (2 pairs) in bins of equal width, bin k holding distances in
/// (k·width, (k+1)·width]; pairs at one place fall in the first. Source: Matheron 1963; defaults of the R package gstat.</summary>
public static class VariogramBins
{
    /// <summary>Sorts all pairs of sample points by distance.</summary>
    /// <param name="samples">At least two.</param>
    /// <param name="cutoff">Longest distance used, metres; null for a third of the bounding box's diagonal.</param>
    /// <param name="bins">Number of bins, at least 1.</param>
    /// <returns>The bins that hold a pair, nearest first.</returns>
    /// <exception cref="ArgumentException">There are fewer than two sample points, or all lie at one place.</exception>
    public static IReadOnlyList<VariogramBin> Of(IReadOnlyList<SamplePoint> samples, double? cutoff = null, int bins = 15)
    {
        SamplePoint.Check(samples);
        ArgumentOutOfRangeException.ThrowIfLessThan(bins, 1);
        var reach = cutoff ?? new PlanPoint(samples.Min(s => s.At.X), samples.Min(s => s.At.Y))
            .DistanceTo(new PlanPoint(samples.Max(s => s.At.X), samples.Max(s => s.At.Y))) / 3;
        if (!(reach > 0) || !double.IsFinite(reach))
            throw new ArgumentException("A variogram needs two or more sample points at different places, and a cutoff above 0.", nameof(samples));

        var width = reach / bins;
        var pairs = new int[bins];
        double[] distances = new double[bins], squares = new double[bins];
        for (var i = 0; i < samples.Count; i++)
        {
            for (var j = i + 1; j < samples.Count; j++)
            {
                var distance = samples[i].At.DistanceTo(samples[j].At);
                if (distance > reach) continue;
                var bin = Math.Clamp((int)Math.Ceiling(distance / width) - 1, 0, bins - 1);
                var difference = samples[i].Value - samples[j].Value;
                pairs[bin]++;
                distances[bin] += distance;
                squares[bin] += difference * difference;
            }
        }

        return [.. Enumerable.Range(0, bins).Where(k => pairs[k] > 0)
            .Select(k => new VariogramBin(pairs[k], distances[k] / pairs[k], squares[k] / (2 * pairs[k])))];
    }
}
