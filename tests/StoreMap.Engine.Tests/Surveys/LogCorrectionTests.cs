using CsCheck;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>The corrected log against the truth of Cases/sensor, and against profiles a walked probe meets.</summary>
public class LogCorrectionTests
{
    private static readonly MonitorNoise Noise = new(1, 1, 0);

    private static CorrectedLog Correct(double[] seconds, double[] log, SensorModel model) =>
        LogCorrection.Correct(seconds, log, [.. log.Select(Noise.Variance)], model);

    private static double Rms(IEnumerable<double> errors) => Math.Sqrt(errors.Average(e => e * e));

    [Theory]
    [MemberData(nameof(SensorCase.Files), MemberType = typeof(SensorCase))]
    public void Correct_ReferenceLogs_LeavesLessThanAFifthOfTheErrorAndNothingBelowZero(string file)
    {
        var c = SensorCase.Of(file);
        var log = Correct(c.Seconds, c.Log, new SensorModel(c.Delay, c.T90));
        var seen = Enumerable.Range(0, c.Seconds.Length).Where(i => c.Seconds[i] <= log.Seconds[^1]).ToArray();
        var raw = Rms(seen.Select(i => c.Log[i] - c.Truth[i]));
        var corrected = Rms(seen.Select(i => log.Ppm[log.IndexAt(c.Seconds[i])] - c.Truth[i]));
        Assert.True(corrected < 0.2 * raw, FormattableString.Invariant($"{corrected:0.00} of {raw:0.00} ppm"));
        Assert.True(log.Ppm.Min() >= 0);
    }

    /// <summary>The model may be as far off as a puff test leaves it.</summary>
    [Theory]
    [MemberData(nameof(SensorCase.StepsAndPulses), MemberType = typeof(SensorCase))]
    public void Correct_WithThePuffTestsOwnModel_StillHalvesTheError(string file)
    {
        var c = SensorCase.Of(file);
        var model = SensorCalibration.FitStarts(c.Seconds, c.Log, [c.Events[0].Seconds], 1).Model;
        var log = Correct(c.Seconds, c.Log, model);
        var seen = Enumerable.Range(0, c.Seconds.Length).Where(i => c.Seconds[i] <= log.Seconds[^1]).ToArray();
        Assert.True(Rms(seen.Select(i => log.Ppm[log.IndexAt(c.Seconds[i])] - c.Truth[i])) < 0.5 * Rms(seen.Select(i => c.Log[i] - c.Truth[i])));
    }

    /// <summary>A leak passed at walking pace: the profile's peak comes back to its place, and its deviations are honest.</summary>
    [Theory]
    [InlineData(1, 3, 20)]
    [InlineData(2, 6, 40)]
    [InlineData(3, 4, 8)]
    [InlineData(4, 10, 100)]
    public void Correct_WalkedProfile_PutsThePeakInPlaceWithHonestDeviations(int seed, double width, double height)
    {
        var random = new Random(seed);
        var model = new SensorModel(5, 8);
        double[] fine = [.. Enumerable.Range(0, 12_001).Select(i => i * 0.01)];
        double Truth(double t) => height * Math.Exp(-Math.Abs(t - 60) / width);
        var shown = model.Lag(fine, [.. fine.Select(Truth)]);
        double[] seconds = [.. Enumerable.Range(0, 120).Select(i => (double)i)];
        double[] log = [.. seconds.Select(t => Math.Max(0, Math.Round((t < 5 ? 0 : shown[(int)((t - 5) * 100)]) + (0.3 * Normal(random)))))];
        var corrected = Correct(seconds, log, model);
        Assert.InRange(corrected.Seconds[Array.IndexOf(corrected.Ppm, corrected.Ppm.Max())], 58.5, 61.5);

        // Mean concentration of each interval is what is estimated.
        double Mean(int k) => Enumerable.Range(0, 20).Average(j => Truth(corrected.Seconds[k - 1] + ((j + 0.5) / 20)));
        var within = Enumerable.Range(1, 119).Count(k => Math.Abs(corrected.Ppm[k] - Mean(k)) <= 2 * corrected.DeviationPpm[k]);
        Assert.InRange(within / 119.0, 0.88, 1);
    }

    [Fact]
    public void Correct_SteadyLog_IsTheLevelItself()
    {
        double[] seconds = [.. Enumerable.Range(0, 60).Select(i => (double)i)];
        var log = Correct(seconds, [.. seconds.Select(_ => 7.0)], new SensorModel(5, 6));
        Assert.All(log.Ppm, u => Assert.Equal(7, u, 1e-6));
        Assert.Equal(-5, log.Seconds[0]);
    }

    [Fact]
    public void Correct_AnyLog_IsFiniteAndNotNegative() =>
        Gen.Select(Gen.Double[0, 15], Gen.Double[0, 1000].Array[1, 40], Gen.Double[0, 5].Array[40]).Sample((t90, log, gaps) =>
        {
            var seconds = new double[log.Length];
            for (var i = 1; i < seconds.Length; i++) seconds[i] = seconds[i - 1] + gaps[i];
            var corrected = Correct(seconds, log, new SensorModel(4, t90));
            Assert.All(corrected.Ppm, u => Assert.True(double.IsFinite(u) && u >= 0));
            Assert.All(corrected.DeviationPpm, d => Assert.True(double.IsFinite(d)));
        });

    /// <summary>Readings a millisecond apart beside ones seconds apart once cancelled the factor's pivots below zero.</summary>
    [Fact]
    public void Correct_ReadingsAlmostAtOneMoment_AreFinite()
    {
        var corrected = Correct([0, 0.354, 0.354, 0.354, 0.354], [9, 0, 383.0 / 95, 335, 163.0 / 6], new SensorModel(4, 12.4));
        Assert.All(corrected.Ppm, u => Assert.True(double.IsFinite(u) && u >= 0));
        Assert.All(corrected.DeviationPpm, d => Assert.True(double.IsFinite(d)));
    }

    /// <summary>Band factor against dense elimination of the same matrix.</summary>
    [Fact]
    public void BandedCholesky_AnyPositiveDefiniteMatrix_SolvesAndInverts() =>
        Gen.Double[-1, 1].Array[18].Sample(v =>
        {
            const int N = 6;
            var bands = new double[3, N];
            for (var i = 0; i < N; i++)
            {
                bands[0, i] = 5 + v[i];
                bands[1, i] = v[6 + i];
                bands[2, i] = v[12 + i];
            }

            var dense = new double[N, N];
            for (var i = 0; i < N; i++)
            {
                for (var b = 0; b < 3 && i + b < N; b++) dense[i + b, i] = dense[i, i + b] = bands[b, i];
            }

            var inverse = LeastSquares.Invert(dense);
            var factor = new BandedCholesky((double[,])bands.Clone());
            var banded = factor.InverseBands();
            double[] right = [1, -2, 3, 0, 5, -1];
            var solved = factor.Solve((double[])right.Clone());
            for (var i = 0; i < N; i++)
            {
                Assert.Equal(Enumerable.Range(0, N).Sum(k => inverse[i, k] * right[k]), solved[i], 1e-10);
                for (var b = 0; b < 3 && i + b < N; b++) Assert.Equal(inverse[i + b, i], banded[b, i], 1e-10);
            }
        });

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
