using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Delay and T90 from a puff test against the true values of Cases/sensor and scipy's fit of the same logs.</summary>
public class SensorCalibrationTests
{
    [Theory]
    [MemberData(nameof(SensorCase.StepsAndPulses), MemberType = typeof(SensorCase))]
    public void Fit_KnownTruth_IsWithinTwoTenthsAndFivePercent(string file)
    {
        var c = SensorCase.Of(file);
        var fit = SensorCalibration.Fit(c.Seconds, c.Log, c.BasePpm, c.Events, 1);
        Assert.Equal(c.Delay, fit.DelaySeconds, 0.2);
        Assert.Equal(c.T90, fit.T90Seconds, 0.05 * c.T90);
    }

    /// <summary>The same least-squares problem solved by scipy: the minimum is the same to its own tolerance.</summary>
    [Theory]
    [MemberData(nameof(SensorCase.Files), MemberType = typeof(SensorCase))]
    public void Fit_KnownTruth_IsScipysMinimum(string file)
    {
        var c = SensorCase.Of(file);
        var fit = SensorCalibration.Fit(c.Seconds, c.Log, c.BasePpm, c.Events, 1);
        Assert.Equal(c.Fitted.Delay, fit.DelaySeconds, 0.25 * c.Fitted.DelayDeviation);
        Assert.Equal(c.Fitted.T90, fit.T90Seconds, 0.25 * c.Fitted.T90Deviation);
    }

    [Theory]
    [MemberData(nameof(SensorCase.StepsAndPulses), MemberType = typeof(SensorCase))]
    public void FitStarts_OnlyStartsKnown_IsWithinHalfASecondAndFifteenPercent(string file)
    {
        var c = SensorCase.Of(file);
        var fit = SensorCalibration.FitStarts(c.Seconds, c.Log, [c.Events[0].Seconds], 1);
        Assert.Equal(c.Delay, fit.DelaySeconds, 0.5);
        Assert.Equal(c.T90, fit.T90Seconds, 0.15 * c.T90);
        Assert.InRange(fit.DelayDeviation, 1e-4, 0.5);
        Assert.InRange(fit.T90Deviation, 1e-4, 1.5);
        if (c.Events.Length > 1) Assert.Equal(c.Events[1].Seconds - c.Events[0].Seconds, fit.Puffs[0], 1.0);
        else Assert.True(double.IsInfinity(fit.Puffs[0]));
    }

    [Fact]
    public void FitStarts_ThreePuffs_SharesOneDelayAndT90()
    {
        var model = new SensorModel(5.3, 7);
        SignalEvent[] events = [new(20, 90), new(26, -90), new(60, 50), new(70, -50), new(110, 120), new(115, -120)];
        double[] seconds = [.. Enumerable.Range(0, 170).Select(i => (double)i)];
        var fit = SensorCalibration.FitStarts(seconds, [.. seconds.Select(t => Math.Round(model.Respond(1, events, t)))], [110, 20, 60], 1);
        Assert.Equal(5.3, fit.DelaySeconds, 0.1);
        Assert.Equal(7, fit.T90Seconds, 0.2);
        Assert.Equal([6, 10, 5], fit.Puffs.Select(p => Math.Round(p)));
    }

    [Theory]
    [InlineData(5, "puff-log")]
    [InlineData(60, "puff-unseen")]
    public void FitStarts_NothingToFit_IsRefused(int count, string rule)
    {
        double[] seconds = [.. Enumerable.Range(0, count).Select(i => (double)i)];
        var refused = Assert.Throws<RefusedInputException>(() => SensorCalibration.FitStarts(seconds, new double[count], [3], 1));
        Assert.Equal(rule, Assert.Single(refused.Problems).Rule);
    }

    [Fact]
    public void FitStarts_StartsOutsideTheLog_NamesEach()
    {
        double[] seconds = [.. Enumerable.Range(0, 60).Select(i => (double)i)];
        var refused = Assert.Throws<RefusedInputException>(() => SensorCalibration.FitStarts(seconds, [.. seconds], [-3, 70], 1));
        Assert.Equal(["-3", "70"], refused.Problems.Select(p => p.Value));
    }
}
