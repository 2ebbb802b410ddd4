namespace StoreMap.Surveys;

/// <summary>One least-squares fit of a puff test from one start: y = B + Σ A_j (S(t − s_j − d) − S(t − s_j − l_j − d)), S(t) = 1 − exp(−t/T).
/// Delay d, T90 and the lengths l_j are searched; B and the heights A_j ≥ 0 follow in closed form.</summary>
internal sealed class PuffFit
{
    private const double LeastSeconds = 0.05;
    private readonly LeastSquares.Result result;
    private readonly bool[] ends;
    private readonly int samples;

    private PuffFit(LeastSquares.Result result, bool[] ends, int samples) =>
        (this.result, this.ends, this.samples) = (result, ends, samples);

    /// <summary>What is to be least: the information criterion of Schwarz (1978), so that an end is only found where the log shows one.</summary>
    public double Score => (samples * Math.Log(Math.Max(result.SumOfSquares / samples, 1e-6))) + (result.Parameters.Length * Math.Log(samples));

    /// <summary>Fits.</summary>
    /// <param name="seconds">Sample times (N).</param>
    /// <param name="ppm">The log (N).</param>
    /// <param name="starts">Starts of the puffs (K), ascending.</param>
    /// <param name="lengths">Lengths to begin with (K), seconds; infinity for a puff that does not end.</param>
    /// <param name="delay">Delay to begin with.</param>
    /// <param name="t90">T90 to begin with.</param>
    public static PuffFit From(
        IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, double[] starts, double[] lengths, double delay, double t90)
    {
        bool[] ends = [.. lengths.Select(double.IsFinite)];
        double[] finite = [.. lengths.Where(double.IsFinite)];
        var most = seconds[^1] - seconds[0];
        var fit = LeastSquares.Fit(
            [delay, t90, .. finite],
            [0, LeastSeconds, .. finite.Select(_ => LeastSeconds)],
            [SensorCalibration.MostSeconds, SensorCalibration.MostSeconds, .. finite.Select(_ => most)],
            p => Residuals(seconds, ppm, starts, ends, p));
        return new PuffFit(fit, ends, ppm.Count);
    }

    /// <summary>What a fit would begin with.</summary>
    public static double SumOfSquares(
        IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, double[] starts, double[] lengths, double delay, double t90) =>
        Residuals(seconds, ppm, starts, [.. lengths.Select(double.IsFinite)], [delay, t90, .. lengths.Where(double.IsFinite)])
            .Sum(r => r * r);

    public SensorEstimate Estimate(double resolutionPpm)
    {
        var p = result.Parameters;
        var deviations = result.Deviations(resolutionPpm * resolutionPpm / 12);
        var puffs = new double[ends.Length];
        var next = 2;
        for (var j = 0; j < puffs.Length; j++) puffs[j] = ends[j] ? p[next++] : double.PositiveInfinity;
        return new SensorEstimate(p[0], deviations[0], p[1], deviations[1], Math.Sqrt(result.SumOfSquares / samples), puffs);
    }

    private static double[] Residuals(
        IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, double[] starts, bool[] ends, double[] p)
    {
        int n = ppm.Count, k = starts.Length + 1;
        var model = new SensorModel(p[0], p[1]);
        var columns = new double[k][];
        columns[0] = new double[n];
        Array.Fill(columns[0], 1);
        var next = 2;
        for (var j = 0; j < starts.Length; j++)
        {
            var length = ends[j] ? p[next++] : double.PositiveInfinity;
            var column = columns[j + 1] = new double[n];
            for (var i = 0; i < n; i++)
            {
                var since = seconds[i] - starts[j] - model.DelaySeconds;
                if (since > 0) column[i] = model.Risen(since) - (since > length ? model.Risen(since - length) : 0);
            }
        }

        return Project(columns, ppm, n);
    }

    // What is left of the log after the best combination of the columns; heights below zero are set to zero, one after another.
    private static double[] Project(double[][] columns, IReadOnlyList<double> ppm, int n)
    {
        var used = Enumerable.Range(0, columns.Length).ToList();
        while (true)
        {
            var heights = Solve(used.ConvertAll(c => columns[c]), ppm, n);
            var worst = -1;
            for (var u = 1; u < used.Count; u++)
            {
                if (heights[u] < 0 && (worst < 0 || heights[u] < heights[worst])) worst = u;
            }

            if (worst >= 0)
            {
                used.RemoveAt(worst);
                continue;
            }

            var residuals = new double[n];
            for (var i = 0; i < n; i++)
            {
                residuals[i] = ppm[i];
                for (var u = 0; u < used.Count; u++) residuals[i] -= heights[u] * columns[used[u]][i];
            }

            return residuals;
        }
    }

    private static double[] Solve(List<double[]> columns, IReadOnlyList<double> ppm, int n)
    {
        var k = columns.Count;
        var normal = new double[k, k];
        var right = new double[k];
        for (var a = 0; a < k; a++)
        {
            for (var i = 0; i < n; i++) right[a] += columns[a][i] * ppm[i];
            for (var b = 0; b < k; b++)
            {
                for (var i = 0; i < n; i++) normal[a, b] += columns[a][i] * columns[b][i];
            }
        }

        for (var a = 0; a < k; a++) normal[a, a] += 1e-9;
        var inverse = LeastSquares.Invert(normal);
        var heights = new double[k];
        for (var a = 0; a < k; a++)
        {
            for (var b = 0; b < k; b++) heights[a] += inverse[a, b] * right[b];
        }

        return heights;
    }
}
