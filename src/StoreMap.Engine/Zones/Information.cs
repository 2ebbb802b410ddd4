namespace StoreMap.Zones;

/// <summary>Expected information of a reading.</summary>
internal static class Information
{
    /// <summary>Mutual information, nats, between which of several means is true and a reading with normal noise of deviation 1:
    /// entropy of the mixture less entropy of the noise, by the trapezoid rule.</summary>
    /// <param name="means">Mean of the reading under each hypothesis.</param>
    /// <param name="weights">Probabilities, sum 1.</param>
    public static double Of(IReadOnlyList<double> means, IReadOnlyList<double> weights)
    {
        const double step = 0.125;
        const double far = 9;
        var low = means.Min() - 5;
        var density = new double[1 + (int)Math.Ceiling((means.Max() + 5 - low) / step)];
        var shrink = Math.Exp(-step * step);
        for (var k = 0; k < means.Count; k++)
        {
            // A normal curve at even steps: its ratio from one to the next shrinks by the same factor.
            var first = Math.Max(0, (int)Math.Ceiling((means[k] - far - low) / step));
            var last = Math.Min(density.Length - 1, (int)Math.Floor((means[k] + far - low) / step));
            var d = low + (first * step) - means[k];
            var height = weights[k] * Math.Exp(-0.5 * d * d) / Math.Sqrt(2 * Math.PI);
            var ratio = Math.Exp(-step * (d + (step / 2)));
            for (var i = first; i <= last; i++)
            {
                density[i] += height;
                height *= ratio;
                ratio *= shrink;
            }
        }

        var entropy = 0.0;
        foreach (var f in density)
        {
            if (f > 1e-300) entropy -= f * Math.Log(f) * step;
        }

        return entropy - (0.5 * Math.Log(2 * Math.PI * Math.E));
    }

    /// <summary>Entropy, nats, of one of several possibilities.</summary>
    /// <param name="weights">Their probabilities, sum 1.</param>
    public static double Entropy(IEnumerable<double> weights) => weights.Sum(w => w > 0 ? -w * Math.Log(w) : 0);
}
