using StoreMap.Plans;
using StoreMap.Simulation;
using StoreMap.Simulation.Stores;

namespace StoreMap.Tests;

/// <summary>Rooms, walk-ins, patches and the monitor of the random stores against outside formulas.</summary>
public class StoreAirTests
{
    private static readonly Plan Hall = LayoutDocument.Parse("""
        {"format":"storemap-layout/1","id":"hall","name":"Hall","units":"m","outline":[[0,0],[36,0],[36,36],[0,36]],
         "fixtures":[{"id":"K1","kind":"walk-in","outline":[[30,30],[35,30],[35,34],[30,34]],"opening":[[30,31],[30,32]]}]}
        """).Plan;

    [Theory]
    [InlineData(1, 0.4210)]
    [InlineData(2, 0.1139)]
    public void RoomGrid_SteadySource_FallsAsTheBesselFunction(double reaches, double k0)
    {
        // Two-dimensional dispersion with loss: c = G / (2 pi D h) K0(r / sqrt(D/loss)); K0 from Abramowitz and Stegun, table 9.8.
        var nature = AirNature.Of(Roughness.Smooth, new SeededNoise(1)) with { RoomDraught = 0, RoomDispersion = 0.04, RoomLoss = 0.01 };
        var room = new RoomGrid(Hall, nature, new SeededNoise(2));
        var source = room.FreeCell(new PlanPoint(18.3, 18.3), new PlanPoint(1, 0));
        for (var t = 0; t < 2000; t++)
        {
            room.Source[source] += 10;
            room.Step(1);
        }

        var expected = 10 / (2 * Math.PI * 0.04 * RoomGrid.Height) * k0;
        // A reach is 2 m; between cell centres the value is that of the geometric mean.
        var low = Math.Log(room.At(new PlanPoint(18.3 + (Math.Floor(2 * reaches / 0.6) * 0.6), 18.3)));
        var high = Math.Log(room.At(new PlanPoint(18.3 + (Math.Ceiling(2 * reaches / 0.6) * 0.6), 18.3)));
        var part = (2 * reaches / 0.6) - Math.Floor(2 * reaches / 0.6);
        Assert.Equal(expected, Math.Exp(low + (part * (high - low))), expected * 0.08);
    }

    [Fact]
    public void WalkInAir_WithoutALeak_DecaysByItsAirChange()
    {
        // ASTM E741 decay: A = ln(C1/C2) / (t2 - t1), the same all through.
        var leak = new StoreLeak(LeakSite.WalkIn, "K1", 0, new PlanPoint(32, 32), 10, 1);
        var air = new WalkInAir(Hall.FindFixture("K1")!, new SeededNoise(3), [leak]);
        var levels = new List<double>();
        for (var t = 0; t <= 1800; t++)
        {
            if (t % 600 == 0) levels.Add(air.At(new PlanPoint(33, 33), ProbeHeight.Mid));
            air.Step(1);
        }

        var changes = levels.Zip(levels.Skip(1), (a, b) => Math.Log(a / b) * 6).ToList();
        Assert.InRange(changes[0], 0.5, 4);
        Assert.All(changes, c => Assert.Equal(changes[0], c, 1e-9));
    }

    [Fact]
    public void StoreLeak_OunceADay_IsTenKilogramsAYearAnd93MillilitresOfPureGasASecondTimesAMillion()
    {
        // 28.35 g a day of R-448A (86.28 g/mol) at 24.45 L/mol: 10.35 kg a year; 9.3e-8 m3 a second.
        var leak = new StoreLeak(LeakSite.Interior, "C1", 0, default, 1, 1);
        Assert.Equal(10.355, leak.KilogramsPerYear, 0.01);
        Assert.Equal(0.093, leak.PpmCubicMetresPerSecond, 0.0005);
    }

    [Fact]
    public void PatchField_ManyCells_HasItsLogDeviationAndReach()
    {
        var field = PatchField.Draw(200_000, 0.15, 0.25, new SeededNoise(4)).Select(x => Math.Log(x)).ToArray();
        var mean = field.Average();
        var variance = field.Average(x => (x - mean) * (x - mean));
        // 2.5 ft is 0.762 m: 5.08 cells of 0.15 m.
        var lagged = field.Zip(field.Skip(5), (a, b) => (a - mean) * (b - mean)).Average() / variance;
        Assert.Equal(0.25, Math.Sqrt(variance), 0.01);
        Assert.Equal(Math.Exp(-0.75 / 0.762), lagged, 0.02);
    }

    [Fact]
    public void HandMonitor_Step_ShowsNineTenthsAfterDelayAndT90()
    {
        // Definition of delay and T90.
        var monitor = new HandMonitor(new SeededNoise(1)) { DelaySeconds = 5, T90Seconds = 10, NoisePpm = 0, DriftPpmPerHour = 0, Gain = 1, StepPpm = 0.1, DetectionPpm = 0.5, RangePpm = 200 };
        var shown = Enumerable.Range(0, 60).Select(t => monitor.Draw(t >= 10 ? 100 : 0)).ToArray();
        Assert.Equal(0, shown[14], 1e-9);
        Assert.Equal(90, shown[24], 1e-6);
        Assert.Equal(["0", "0.6", ">200"], new[] { 0.44, 0.63, 201 }.Select(ppm => monitor.Display(ppm)));
    }
}
