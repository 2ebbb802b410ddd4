namespace StoreMap.Surveys;

/// <summary>Follows a level that wanders: a random walk seen through noise, by the Kalman filter and the Rauch–Tung–Striebel smoother.
/// Source: Rauch, Tung, Striebel, AIAA Journal 3 (1965) 1445.</summary>
internal static class LevelSmoother
{
    /// <summary>Smooths.</summary>
    /// <param name="steps">Variance added before each value (N); the first is ignored.</param>
    /// <param name="values">What was seen (N).</param>
    /// <param name="precisions">1/variance of what was seen (N); 0 where nothing was.</param>
    /// <param name="priorMean">Level before the first value.</param>
    /// <param name="priorVariance">Its variance, greater than 0.</param>
    /// <param name="means">Gets the level at each value (N).</param>
    /// <param name="variances">Gets its variance (N).</param>
    public static void Smooth(
        ReadOnlySpan<double> steps, ReadOnlySpan<double> values, ReadOnlySpan<double> precisions, double priorMean, double priorVariance,
        Span<double> means, Span<double> variances)
    {
        double m = priorMean, p = priorVariance;
        for (var i = 0; i < values.Length; i++)
        {
            if (i > 0) p += steps[i];
            var spread = 1 + (p * precisions[i]);
            m += p * precisions[i] / spread * (values[i] - m);
            p /= spread;
            means[i] = m;
            variances[i] = p;
        }

        for (var i = values.Length - 2; i >= 0; i--)
        {
            var predicted = variances[i] + steps[i + 1];
            var gain = predicted > 0 ? variances[i] / predicted : 0;
            means[i] += gain * (means[i + 1] - means[i]);
            variances[i] += gain * gain * (variances[i + 1] - predicted);
        }
    }
}
