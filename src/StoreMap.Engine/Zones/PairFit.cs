using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>One block against pairs of leaks at given cells, summed over calm air settings.</summary>
internal sealed class PairFit
{
    private const double C = NoiseLevels.ScaleDeviation;

    /// <summary>Logarithmic variance assumed while strengths are sought: the middle levels of turbulence and patch.</summary>
    private const double SoughtVariance = 0.12;

    private const int Steps = 6;
    private const int RoughSteps = 3;
    private readonly StateFit fit;
    private readonly ReadingBlock block;
    private readonly int[] settings;
    private readonly double[] logWeight;
    private readonly double[][][] response;
    private readonly double[] observed;
    private readonly double[] logModel;
    private readonly double[] outside;
    private readonly BlockTables tables;
    private readonly int[] middle;

    public PairFit(StateFit fit, int[] cells, double[]? outside)
    {
        this.fit = fit;
        this.outside = outside ?? new double[fit.Block.Readings.Length];
        tables = outside is null ? fit.Block.Quiet : fit.Block.TablesFor(outside);
        block = fit.Block;
        settings = [.. Enumerable.Range(0, fit.Settings.Length).Where(t => fit.Settings[t].Calm)];
        var calm = settings.Sum(t => fit.Settings[t].Weight);
        logWeight = [.. settings.Select(t => Math.Log(fit.Settings[t].Weight / calm))];
        var n = block.Readings.Length;

        // For a first look: every fourth setting, which takes each reach or dispersion in turn.
        middle = [.. Enumerable.Range(0, settings.Length).Where(k => k % 4 == (k / 4) % 4)];
        response = [.. settings.Select(t => cells.Select(c => Enumerable.Range(0, n).Select(i => Math.Exp(fit.LogResponse(c, t, i))).ToArray()).ToArray())];
        observed = [.. block.Readings.Select(r => Math.Asinh(C * r.Net / r.Deviation) / C)];
        logModel = new double[n];
    }

    /// <summary>Log marginal likelihood of leaks at two of the cells, and what is known of their strengths in the likeliest air.</summary>
    public double Log(int left, int right, out (StrengthProfile Left, StrengthProfile Right) strengths)
    {
        var (sum, best) = (double.NegativeInfinity, double.NegativeInfinity);
        (double A, double B, double VarianceA, double VarianceB) likeliest = default;
        for (var k = 0; k < settings.Length; k++)
        {
            var log = logWeight[k] + LogAt(k, left, right, Steps, out var a, out var b, out var variances);
            sum = NormalLaw.LogAdd(sum, log);
            if (log > best) (best, likeliest) = (log, (a, b, variances.A, variances.B));
        }

        strengths = (StrengthProfile.Normal(likeliest.A, likeliest.VarianceA), StrengthProfile.Normal(likeliest.B, likeliest.VarianceB));
        return sum;
    }

    /// <summary>The same by a few air settings and fewer steps.</summary>
    public double RoughLog(int left, int right)
    {
        var sum = double.NegativeInfinity;
        foreach (var k in middle) sum = NormalLaw.LogAdd(sum, logWeight[k] + LogAt(k, left, right, RoughSteps, out _, out _, out _));
        return sum;
    }

    /// <summary>ppm of one of the pair at each reading in the likeliest air, and its setting and strength there.</summary>
    public double[] Trace(int left, int right, bool ofLeft, out int setting, out double logStrength)
    {
        (setting, logStrength) = (settings[0], 0);
        var best = double.NegativeInfinity;
        var trace = new double[block.Readings.Length];
        for (var k = 0; k < settings.Length; k++)
        {
            var log = logWeight[k] + LogAt(k, left, right, Steps, out var a, out var b, out _);
            if (log <= best) continue;
            best = log;
            (setting, logStrength) = (settings[k], ofLeft ? a : b);
            var shape = response[k][ofLeft ? left : right];
            for (var i = 0; i < trace.Length; i++) trace[i] = shape[i] * Math.Exp(ofLeft ? a : b);
        }

        return trace;
    }

    // Gauss-Newton for the strengths' logarithms on the comparison scale with their priors, then Laplace.
    private double LogAt(int k, int left, int right, int steps, out double a, out double b, out (double A, double B) variances)
    {
        var (fa, fb) = (response[k][left], response[k][right]);
        var (mean, variance) = (fit.LogStrengthMean(settings[k]), fit.LogStrengthDeviation * fit.LogStrengthDeviation);
        (a, b) = (Start(fa, fb), Start(fb, fa));
        var (haa, hab, hbb) = (0.0, 0.0, 0.0);
        for (var step = 0; step <= steps; step++)
        {
            var (ga, gb) = ((mean - a) / variance, (mean - b) / variance);
            (haa, hab, hbb) = (1 / variance, 0, 1 / variance);
            var (sa, sb) = (Math.Exp(a), Math.Exp(b));
            for (var i = 0; i < observed.Length; i++)
            {
                var reading = block.Readings[i];
                var (ma, mb) = (sa * fa[i], sb * fb[i]);
                var f = ma + mb + outside[i];
                var x = C * f / reading.Deviation;
                var residual = observed[i] - (Math.Asinh(x) / C);
                if ((reading.Bound == ReadingBound.Below && reading.Cleared == 0 && residual > 0) || (reading.Bound == ReadingBound.AtLeast && residual < 0)) continue;
                var share = 1 / (1 + (x * x));
                var slope = 1 / Math.Sqrt((reading.Deviation * reading.Deviation) + (C * C * f * f));
                var precision = 1 / (share + ((1 - share) / (C * C) * (SoughtVariance + block.LogVariance[i])));
                // Far out, a reading pulls less: Student's law again.
                precision *= 6 / (5 + (residual * residual * precision));
                var (da, db) = (ma * slope, mb * slope);
                ga += precision * residual * da;
                gb += precision * residual * db;
                haa += precision * da * da;
                hab += precision * da * db;
                hbb += precision * db * db;
            }

            if (step == steps) break;
            var det = (haa * hbb) - (hab * hab);
            a += Math.Clamp(((hbb * ga) - (hab * gb)) / det, -1.5, 1.5);
            b += Math.Clamp(((haa * gb) - (hab * ga)) / det, -1.5, 1.5);
        }

        var curvature = (haa * hbb) - (hab * hab);
        variances = (hbb / curvature, haa / curvature);
        for (var i = 0; i < logModel.Length; i++) logModel[i] = Math.Log(Math.Max(1e-30, (Math.Exp(a) * fa[i]) + (Math.Exp(b) * fb[i])));
        var priors = -(0.5 * ((mean - a) * (mean - a) / variance)) - (0.5 * ((mean - b) * (mean - b) / variance)) - Math.Log(2 * Math.PI * variance);
        return tables.LogLikelihood(logModel) + priors + Math.Log(2 * Math.PI) - (0.5 * Math.Log(curvature));
    }

    // The reading that one source dominates most says where its strength starts.
    private double Start(double[] own, double[] other)
    {
        var best = 0;
        for (var i = 1; i < own.Length; i++)
        {
            if (own[i] / (other[i] + 0.05) > own[best] / (other[best] + 0.05)) best = i;
        }

        return Math.Log(Math.Max(block.Readings[best].Net - outside[best], 0.3) / Math.Max(own[best], 0.02));
    }
}
