using CsCheck;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>The forward model. Sources: Cases/sensor (closed-form responses), and values that follow from the definition T = T90/ln 10.</summary>
public class SensorModelTests
{
    /// <summary>The files have four decimals.</summary>
    private const double FileTolerance = 1e-4;

    [Theory]
    [MemberData(nameof(SensorCase.Files), MemberType = typeof(SensorCase))]
    public void Respond_ReferenceLogs_Agree(string file)
    {
        var c = SensorCase.Of(file);
        var model = new SensorModel(c.Delay, c.T90);
        for (var i = 0; i < c.Seconds.Length; i++)
        {
            Assert.Equal(c.Response[i], model.Respond(c.BasePpm, c.Events, c.Seconds[i]), FileTolerance);
        }
    }

    [Fact]
    public void TimeConstant_T90OfFive_IsTheDefinition()
    {
        var model = new SensorModel(0, 5);
        Assert.Equal(2.17147, model.TimeConstant, 1e-5);
        Assert.Equal(0.630957, Math.Exp(-1 / model.TimeConstant), 1e-6);
        Assert.Equal(0.9, model.Risen(5), 1e-12);
    }

    [Theory]
    [InlineData(5, 3.2040)]
    [InlineData(10, 6.2094)]
    [InlineData(15, 9.2579)]
    public void DirectInverseNoiseGain_AtOneHertz_IsTheTabledFactor(double t90, double gain) =>
        Assert.Equal(gain, new SensorModel(0, t90).DirectInverseNoiseGain(1), 5e-5);

    /// <summary>A profile of 1/e length 0.9 m crossed at 0.3 m/s with T90 5 s: the peak is 1.1684 s late and 0.67742 as high.</summary>
    [Fact]
    public void PeakShift_TwoSidedExponential_IsTheFormulaAndTheSimulatedPeak()
    {
        var model = new SensorModel(0, 5);
        Assert.Equal(1.1684, model.PeakShift(3), 1e-4);

        const int N = 120_001;
        var seconds = Enumerable.Range(0, N).Select(i => -40 + (i * 1e-3)).ToArray();
        var shown = model.Lag(seconds, [.. seconds.Select(t => Math.Exp(-Math.Abs(t) / 3))]);
        var peak = Array.IndexOf(shown, shown.Max());
        Assert.Equal(1.1684, seconds[peak], 2e-3);
        Assert.Equal(0.67742, shown[peak], 1e-5);
    }

    [Fact]
    public void PeakShift_AtTheLimits_IsHalfTAndTLnTwo()
    {
        var model = new SensorModel(0, 5);
        Assert.Equal(model.TimeConstant / 2, model.PeakShift(model.TimeConstant), 1e-9);
        Assert.Equal(model.PeakShift(model.TimeConstant * 1.00011), model.PeakShift(model.TimeConstant * 1.00009), 1e-5);
        Assert.Equal(model.TimeConstant * Math.Log(2), model.PeakShift(1e6), 1e-4);
    }

    [Fact]
    public void Lag_StraightPieces_EqualsTheClosedForm() =>
        Gen.Select(Gen.Double[0, 20], Gen.Double[0.1, 3].Array[12], Gen.Double[0, 100].Array[13]).Sample((t90, gaps, ppm) =>
        {
            var seconds = new double[13];
            for (var i = 0; i < 12; i++) seconds[i + 1] = seconds[i] + gaps[i];
            var slopes = Enumerable.Range(0, 12).Select(i => (ppm[i + 1] - ppm[i]) / gaps[i]).ToArray();
            var events = slopes.Select((s, i) => new SignalEvent(seconds[i], 0, i == 0 ? s : s - slopes[i - 1])).ToArray();
            var model = new SensorModel(0, t90);
            var shown = model.Lag(seconds, ppm);
            for (var i = 0; i < 13; i++) Assert.Equal(model.Respond(ppm[0], events, seconds[i]), shown[i], 1e-6);
        });
}
