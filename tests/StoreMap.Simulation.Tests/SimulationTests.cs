using System.Reflection;
using StoreMap.Plans;
using StoreMap.Simulation;

namespace StoreMap.Tests;

public class SimulationTests
{
    [Fact]
    public void Leak_OfAHundredPoundsAYearIntoAQuarterCubicMetreASecond_Is163Ppm()
    {
        // Box model of the trade's conversion tables: 100 lb/yr of R-448A (5.18 g/h) into 0.25 m3/s of case air is 1.63 ppm at 24.45 L/mol.
        var leak = new SimulatedLeak(LeakPlace.CaseAir, "C1", 0, default, 100 * LengthUnits.KilogramsPerPound, 86.28);
        Assert.Equal(1.63, leak.PpmCubicMetresPerSecond / 0.25, 0.005);
    }

    [Fact]
    public void Monitor_StepAfterDelayAndT90_ShowsNineTenths()
    {
        // Definition of T90 for a first-order response.
        var monitor = new SimulatedMonitor { DelaySeconds = 5, T90Seconds = 10, NoisePpm = 0, DriftPpmPerHour = 0 };
        var tip = Enumerable.Range(0, 60).Select(t => t >= 10 ? 100.0 : 0).ToArray();
        var shown = monitor.Respond(tip, new SeededNoise(1));
        Assert.Equal(0, shown[14], 1e-9);
        Assert.Equal(90, shown[24], 1e-6);
    }

    [Theory]
    [InlineData(0.4, "0")]
    [InlineData(12.6, "13")]
    [InlineData(1000.5, ">1000")]
    public void Display_RoundsToItsStepAndSaysWhenOverRange(double ppm, string shown) => Assert.Equal(shown, new SimulatedMonitor().Display(ppm));

    [Fact]
    public void Normal_ManyDraws_HasMeanZeroAndDeviationOne()
    {
        var noise = new SeededNoise(20260101);
        var draws = Enumerable.Range(0, 40000).Select(_ => noise.Normal()).ToArray();
        var mean = draws.Average();
        // Four standard errors of mean and variance of 40,000 standard normal draws.
        Assert.InRange(mean, -0.02, 0.02);
        Assert.InRange(draws.Average(d => (d - mean) * (d - mean)), 0.97, 1.03);
    }

    [Fact]
    public void Simulator_UsesNothingOfTheInferenceItJudges()
    {
        var forbidden = new[] { "StoreMap.Air", "StoreMap.Fields", "StoreMap.Zones" };
        const BindingFlags All = BindingFlags.Instance | BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly;
        var used = typeof(Scenario).Assembly.GetTypes()
            .SelectMany(t => t.GetMethods(All).SelectMany(m => (m.GetMethodBody()?.LocalVariables.Select(v => v.LocalType) ?? []).Concat(m.GetParameters().Select(p => p.ParameterType)).Append(m.ReturnType))
                .Concat(t.GetFields(All).Select(f => f.FieldType)));
        Assert.DoesNotContain(used, t => forbidden.Contains(t.Namespace));
    }
}
