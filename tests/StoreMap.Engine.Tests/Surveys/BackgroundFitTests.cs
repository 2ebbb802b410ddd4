using CsCheck;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

public class BackgroundFitTests
{
    private static readonly MonitorNoise Noise = new(1, 1, 0.05);

    private static FittedBackground Fit(IReadOnlyList<AirSample> samples, double drift = 0, LevelPrior? prior = null) =>
        new BackgroundFit(samples, Noise, 20, drift, prior ?? new LevelPrior(0, 20)).Fit(false);

    /// <summary>Currie 1968: detection limit 3.29 σ for a well-known blank, 4.65 σ for one paired blank; critical level 1.645 σ.</summary>
    [Fact]
    public void DetectionLevel_KnownAndPairedBlank_AreCurries()
    {
        Assert.Equal(3.29, MonitorNoise.DetectionLevel(1, 0), 1e-12);
        Assert.Equal(4.65, MonitorNoise.DetectionLevel(1, 1), 0.005);
        Assert.Equal(1.645, MonitorNoise.CriticalFactor);
    }

    /// <summary>With a flat prior, no hits and nothing censored the level is the weighted mean: here of equal weights.</summary>
    [Fact]
    public void Fit_QuietExactReadings_IsTheirMean()
    {
        double[] values = [5.0, 5.2, 4.9, 5.1, 4.8];
        var fit = Fit([.. values.Select((v, i) => new AirSample(i, v, ReadingBound.Exact, true))], prior: new LevelPrior(5, 1e6));
        Assert.All(fit.Level, b => Assert.Equal(5.0, b, 0.01));
        var sigma = Math.Sqrt(Noise.Variance(5));
        Assert.Equal(sigma / Math.Sqrt(5), fit.Deviation[2], 0.01);
    }

    /// <summary>Censored likelihood against a direct search of log φ and log Φ terms on a fine grid.</summary>
    [Fact]
    public void Fit_HalfBelowTheLimit_IsTheMaximumOfTheCensoredLikelihood()
    {
        AirSample[] samples =
        [
            .. Enumerable.Range(0, 8).Select(i => new AirSample(i, 1, ReadingBound.Below, true)),
            .. new[] { 1.1, 1.2, 1.0, 1.4, 1.1, 1.3, 1.0, 1.5 }.Select((v, i) => new AirSample(8 + i, v, ReadingBound.Exact, true)),
        ];
        double best = 0, bestScore = double.NegativeInfinity;
        for (var mu = 0.0; mu < 3; mu += 0.0005)
        {
            var score = samples.Sum(s => s.Bound == ReadingBound.Below
                ? CensoredNormal.LogBelow((1 - mu) / Math.Sqrt(Noise.Variance(mu)))
                : -0.5 * (s.Ppm - mu) * (s.Ppm - mu) / Noise.Variance(s.Ppm));
            if (score > bestScore) (best, bestScore) = (mu, score);
        }

        var fit = Fit(samples, prior: new LevelPrior(1, 1e3));
        Assert.Equal(best, fit.Level[0], 0.02);
        Assert.InRange(fit.Level[0], 0.8, 1.2); // zeros in place of "below 1" would give 0.6
    }

    [Fact]
    public void Fit_AllBelowTheLimit_IsZeroWithinTheLimit()
    {
        var fit = Fit([.. Enumerable.Range(0, 30).Select(i => new AirSample(i, 1, ReadingBound.Below, false))]);
        Assert.All(fit.Level, b => Assert.Equal(0, b));
        Assert.All(fit.Deviation, d => Assert.InRange(d, 0.01, 1 / Math.Sqrt(12) + 1e-12));
    }

    /// <summary>Up to four readings in ten show gas of their own, of any size: the level moves less than its own noise.</summary>
    [Fact]
    public void Fit_AnyHits_LeaveTheLevelWhereItIs() =>
        Gen.Select(Gen.Double[0, 8], Gen.Double[6, 300].Array[0, 12], Gen.Double[-0.4, 0.4].Array[18]).Sample((level, excess, jitter) =>
        {
            var samples = jitter.Select(j => Math.Max(0, level + j)).Concat(excess.Select(e => level + e))
                .Select((v, i) => new AirSample(i * 7 % 30, v, v < 1 ? ReadingBound.Below : ReadingBound.Exact, false))
                .Select(s => s.Bound == ReadingBound.Below ? s with { Ppm = 1 } : s)
                .OrderBy(s => s.Seconds).ToArray();
            Assert.All(Fit(samples).Level, b => Assert.InRange(b, level < 1.2 ? 0 : level - 0.45, Math.Max(1, level) + 0.45));
        });

    [Fact]
    public void Smooth_ConstantLevel_IsTheMeanWithItsVariance()
    {
        double[] values = [1, 2, 3, 4], precisions = [1, 1, 1, 1], means = new double[4], variances = new double[4];
        LevelSmoother.Smooth(new double[4], values, precisions, 0, 1e12, means, variances);
        Assert.All(means, m => Assert.Equal(2.5, m, 1e-9));
        Assert.All(variances, v => Assert.Equal(0.25, v, 1e-9));
    }

    /// <summary>The smoother against a dense solve of the same Gaussian model.</summary>
    [Fact]
    public void Smooth_RandomWalk_EqualsTheDenseSolve() =>
        Gen.Select(Gen.Double[0.01, 4].Array[5], Gen.Double[-5, 5].Array[5], Gen.Double[0, 3].Array[5]).Sample((steps, values, precisions) =>
        {
            double[] means = new double[5], variances = new double[5];
            LevelSmoother.Smooth(steps, values, precisions, 1, 9, means, variances);
            var q = new double[5, 6];
            q[0, 0] += 1.0 / 9;
            q[0, 5] += 1.0 / 9;
            for (var i = 0; i < 5; i++)
            {
                q[i, i] += precisions[i];
                q[i, 5] += precisions[i] * values[i];
                if (i == 0) continue;
                q[i, i] += 1 / steps[i];
                q[i - 1, i - 1] += 1 / steps[i];
                q[i, i - 1] -= 1 / steps[i];
                q[i - 1, i] -= 1 / steps[i];
            }

            Eliminate(q);
            for (var i = 0; i < 5; i++) Assert.Equal(q[i, 5], means[i], 1e-9);
        });

    private static void Eliminate(double[,] m)
    {
        var n = m.GetLength(0);
        for (var c = 0; c < n; c++)
        {
            for (var r = 0; r < n; r++)
            {
                if (r == c) continue;
                var f = m[r, c] / m[c, c];
                for (var k = c; k <= n; k++) m[r, k] -= f * m[c, k];
            }
        }

        for (var r = 0; r < n; r++) m[r, n] /= m[r, r];
    }
}
