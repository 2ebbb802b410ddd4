namespace StoreMap.Zones;

/// <summary>The likelihood of a block's readings for modelled values, by table look-up and a Kalman filter along the axis.</summary>
/// <remarks>Residuals hold additive noise (share a), turbulence that differs between readings, and a patch deviation that is an
/// Ornstein-Uhlenbeck process along the axis; the filter integrates the patch exactly in O(n). Censored readings enter through
/// the normal distribution function with the patch's variance but not its correlation.</remarks>
internal sealed class BlockTables
{
    private const double C = NoiseLevels.ScaleDeviation;
    private readonly ReadingBlock block;
    private readonly double[][] residual;
    private readonly double[][] additive;
    private readonly double[][][] censored;
    private readonly double[] filterResidual;
    private readonly double[] filterAdditive;
    private readonly int[] index;
    private readonly double[] fraction;

    public BlockTables(ReadingBlock block, double[][] residual, double[][] additive, double[][][] censored)
    {
        this.block = block;
        this.residual = residual;
        this.additive = additive;
        this.censored = censored;
        var n = residual.Length;
        filterResidual = new double[n];
        filterAdditive = new double[n];
        index = new int[n];
        fraction = new double[n];
    }

    /// <summary>Sets the modelled values of all readings by their logarithms at strength 1.</summary>
    public void SetShape(ReadOnlySpan<double> logResponse)
    {
        for (var i = 0; i < index.Length; i++)
        {
            var u = (logResponse[i] - ReadingBlock.FirstLog) / ReadingBlock.StepLog;
            var k = Math.Floor(u);
            index[i] = (int)Math.Max(k, -100000);
            fraction[i] = u - k;
        }
    }

    /// <summary>Log likelihood at one noise level with the shape set before.</summary>
    /// <param name="shift">Logarithm of the strength in table steps.</param>
    /// <param name="level">Noise level.</param>
    public double LogAt(int shift, int level)
    {
        Look(shift);
        return Filter(shift, level);
    }

    /// <summary>Log likelihoods at all noise levels, each with the log of its prior weight added.</summary>
    public void LogsAt(int shift, Span<double> logs)
    {
        Look(shift);
        for (var level = 0; level < NoiseLevels.Count; level++) logs[level] = Filter(shift, level) + LogWeight[level];
    }

    /// <summary>Log likelihood summed over noise levels for modelled values, or for no source when null.</summary>
    /// <param name="logModel">Natural logarithm of the ppm a source brings to each reading.</param>
    public double LogLikelihood(double[]? logModel)
    {
        if (logModel is null) Array.Fill(index, -100000);
        else SetShape(logModel);
        Span<double> logs = stackalloc double[NoiseLevels.Count];
        LogsAt(0, logs);
        var sum = double.NegativeInfinity;
        foreach (var log in logs) sum = NormalLaw.LogAdd(sum, log);
        return sum;
    }

    private static readonly double[] LogWeight = [.. NoiseLevels.Weight.Select(w => Math.Log(w))];

    private void Look(int shift)
    {
        for (var i = 0; i < index.Length; i++)
        {
            var k = index[i] + shift;
            if (k < 0)
            {
                filterResidual[i] = residual[i][0];
                filterAdditive[i] = additive[i][0];
                continue;
            }

            var t = fraction[i];
            if (k >= ReadingBlock.Entries - 1) (k, t) = (ReadingBlock.Entries - 2, 1);
            filterResidual[i] = residual[i][k] + (t * (residual[i][k + 1] - residual[i][k]));
            filterAdditive[i] = additive[i][k] + (t * (additive[i][k + 1] - additive[i][k]));
        }
    }

    private double Filter(int shift, int level)
    {
        var turbulence = NoiseLevels.Turbulence[level] * NoiseLevels.Turbulence[level];
        var patch = NoiseLevels.Patch[level] * NoiseLevels.Patch[level];
        var (mean, variance, product, sum) = (0.0, patch, 1.0, 0.0);
        for (var i = 0; i < index.Length; i++)
        {
            var keep = block.Keep[i];
            mean *= keep;
            variance = patch + (keep * keep * (variance - patch));
            if (censored[i] is { } table)
            {
                sum += Value(table[level], i, shift);
                continue;
            }

            var a = filterAdditive[i];
            var square = (1 - a) / (C * C);
            var gain = Math.Sqrt(square);
            var total = a + (square * (turbulence + block.Readings[i].View.LogVariance + variance));
            var error = filterResidual[i] - (gain * mean);
            sum -= 0.5 * error * error / total;
            product *= total;
            if (product is > 1e200 or < 1e-200)
            {
                sum -= 0.5 * Math.Log(product);
                product = 1;
            }

            var k = variance * gain / total;
            mean += k * error;
            variance -= k * gain * variance;
        }

        return sum - (0.5 * Math.Log(product));
    }

    private double Value(double[] table, int i, int shift)
    {
        var k = index[i] + shift;
        if (k < 0) return table[0];
        if (k >= ReadingBlock.Entries - 1) return table[ReadingBlock.Entries - 1];
        return table[k] + (fraction[i] * (table[k + 1] - table[k]));
    }
}
