namespace StoreMap.Surveys;

/// <summary>The least-squares problem behind <see cref="LogCorrection"/>, in the sensor's own noise-free values y: the concentration of an
/// interval is u_k = (y_k − a_k y_(k−1))/(1 − a_k), so that every term has bandwidth two and a log of any length is solved in linear time.</summary>
internal sealed class LagInverse
{
    private readonly double[] z;
    private readonly double[] noise;
    private readonly double[] own;
    private readonly double[] before;
    private readonly double[] gaps;
    private readonly int n;

    /// <summary>Sets the problem up.</summary>
    /// <param name="seconds">Moments (N), each at least <see cref="Moments.Least"/> after the one before.</param>
    /// <param name="ppm">Numbers shown (N).</param>
    /// <param name="variances">Noise variance of each, ppm² (N), greater than 0.</param>
    /// <param name="model">The sensor.</param>
    public LagInverse(
        IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, IReadOnlyList<double> variances, SensorModel model)
    {
        n = ppm.Count;
        z = [.. ppm];
        noise = [.. variances.Select(v => 1 / v)];
        (own, before, gaps) = (new double[n], new double[n], new double[n]);
        own[0] = 1;
        for (var k = 1; k < n; k++)
        {
            gaps[k] = seconds[k] - seconds[k - 1];
            var risen = model.Risen(gaps[k]);
            own[k] = 1 / risen;
            before[k] = (1 - risen) / risen;
        }
    }

    /// <summary>The change of concentration per second, as a variance, under which the log is likeliest: the marginal likelihood of the
    /// Gaussian model, searched over twelve decades.</summary>
    public double LikeliestChange()
    {
        double best = 0, bestScore = double.NegativeInfinity;
        for (var power = -6.0; power <= 6; power += 0.25)
        {
            var variance = Math.Pow(10, power);
            var score = LogLikelihood(variance);
            if (score > bestScore) (best, bestScore) = (variance, score);
        }

        return best;
    }

    /// <summary>Solves for the concentrations, held at or above zero.</summary>
    /// <param name="changes">Weight of each squared change per second (N); the first is unused.</param>
    /// <param name="penalty">Weight of a negative concentration, as a multiple of the noise weight.</param>
    /// <param name="mostSteps">Newton steps on the set of intervals held at zero.</param>
    public double[] Solve(double[] changes, double penalty, int mostSteps)
    {
        var held = new bool[n];
        var u = new double[n];
        for (var step = 0; step < mostSteps; step++)
        {
            var y = new BandedCholesky(Matrix(changes, held, penalty)).Solve(Right());
            var same = true;
            for (var k = 0; k < n; k++)
            {
                u[k] = (own[k] * y[k]) - (k > 0 ? before[k] * y[k - 1] : 0);
                same &= held[k] == u[k] < 0;
                held[k] = u[k] < 0;
            }

            if (same) break;
        }

        return u;
    }

    /// <summary>Standard deviations of the concentrations, ppm.</summary>
    public double[] Deviations(double[] changes)
    {
        var inverse = new BandedCholesky(Matrix(changes, new bool[n], 0)).InverseBands();
        var deviations = new double[n];
        for (var k = 0; k < n; k++)
        {
            var variance = own[k] * own[k] * inverse[0, k];
            if (k > 0) variance += (before[k] * before[k] * inverse[0, k - 1]) - (2 * own[k] * before[k] * inverse[1, k - 1]);
            deviations[k] = Math.Sqrt(Math.Max(0, variance));
        }

        return deviations;
    }

    /// <summary>Weights under which single large changes cost little (Cauchy's influence function), so that edges stay edges.</summary>
    public void Reweight(double[] u, double variance, double[] weights)
    {
        for (var k = 1; k < n; k++)
        {
            var change = u[k] - u[k - 1];
            weights[k] = 1 / (variance + (change * change / gaps[k]));
        }
    }

    private double LogLikelihood(double variance)
    {
        var weights = new double[n];
        Array.Fill(weights, 1 / variance);
        var factor = new BandedCholesky(Matrix(weights, new bool[n], 0));
        var right = Right();
        var y = factor.Solve((double[])right.Clone());
        var explained = 0.0;
        for (var k = 0; k < n; k++) explained += right[k] * y[k];
        return (0.5 * explained) - (0.5 * factor.LogDeterminant) - (0.5 * (n - 1) * Math.Log(variance));
    }

    private double[] Right()
    {
        var right = new double[n];
        for (var k = 0; k < n; k++) right[k] = noise[k] * z[k];
        return right;
    }

    private double[,] Matrix(double[] changes, bool[] held, double penalty)
    {
        var m = new double[3, n];
        for (var k = 0; k < n; k++)
        {
            m[0, k] += noise[k];
            var hold = held[k] ? penalty * noise[k] : 0;
            m[0, k] += hold * own[k] * own[k];
            if (k == 0) continue;
            m[1, k - 1] -= hold * own[k] * before[k];
            m[0, k - 1] += hold * before[k] * before[k];

            // u_k − u_(k−1) = own_k y_k − (before_k + own_(k−1)) y_(k−1) + before_(k−1) y_(k−2)
            var w = changes[k] / gaps[k];
            double a = own[k], b = -(before[k] + own[k - 1]), c = before[k - 1];
            m[0, k] += w * a * a;
            m[1, k - 1] += w * a * b;
            m[0, k - 1] += w * b * b;
            if (k == 1) continue;
            m[2, k - 2] += w * a * c;
            m[1, k - 2] += w * b * c;
            m[0, k - 2] += w * c * c;
        }

        return m;
    }
}
