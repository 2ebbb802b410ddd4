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
        var low = means.Min() - 5;
        var steps = (int)Math.Ceiling((means.Max() + 5 - low) / step);
        var entropy = 0.0;
        for (var i = 0; i <= steps; i++)
        {
            var y = low + (i * step);
            var density = 0.0;
            for (var k = 0; k < means.Count; k++)
            {
                var d = y - means[k];
                if (d * d < 80) density += weights[k] * Math.Exp(-0.5 * d * d);
            }

            density /= Math.Sqrt(2 * Math.PI);
            if (density > 1e-300) entropy -= density * Math.Log(density) * step;
        }

        return entropy - (0.5 * Math.Log(2 * Math.PI * Math.E));
    }
}
