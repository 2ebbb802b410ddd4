using StoreMap.Plans;
using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>Sets a leak to twice the smallest size that the locator says it would have seen, and asks whether it is reported.</summary>
internal static class SmallestTest
{
    /// <summary>Runs it on a store with one leak: the clean twin is surveyed for the stated size; the leak is given the strength at which
    /// its case air, where it is highest, holds twice that on average; the coarse pass is walked again with the same chance.</summary>
    public static TwiceSmallest? Run(SimulatedStore store)
    {
        var leak = store.Leaks[0];
        var clean = StoreMaker.With(store, []);
        var stated = Locate(clean).NoLeakSeen.FirstOrDefault(n => n.Fixture == leak.Fixture);
        var peak = PeakPpm(store, leak);
        if (stated is null || peak <= 0) return null;
        var twice = leak with { OuncesPerDay = leak.OuncesPerDay * 2 * stated.SmallestSeenPpm / peak };
        var result = Locate(StoreMaker.With(store, [twice]));
        var zone = result.Zones.Any(z => z.Fixture == leak.Fixture);
        var near = result.Elsewhere.Any(e => e.Near == leak.Fixture);
        return new TwiceSmallest(Stage.Coarse, stated.SmallestSeenPpm, zone || near, zone);
    }

    private static Zones.LocateResult Locate(SimulatedStore store)
    {
        var surveyor = new Surveyor(store);
        SurveyPasses.Coarse(store, surveyor);
        return Judged.Locate(store.Plan, Judged.Readings(store, surveyor.Monitor, surveyor.ReadingsCsv()));
    }

    // What a front reading at the leak itself would show on average, fans on.
    private static double PeakPpm(SimulatedStore store, StoreLeak leak)
    {
        var surveyor = new Surveyor(store);
        var fixture = store.Plan.FindFixture(leak.Fixture)!;
        var sum = 0.0;
        for (var i = 0; i < 10; i++) sum += surveyor.Probe(ProbePlace.On(fixture, leak.Along, Spot.Front)).GasPpm;
        return sum / 10;
    }
}
