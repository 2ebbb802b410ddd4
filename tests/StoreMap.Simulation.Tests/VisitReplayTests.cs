using StoreMap.Evaluation;
using StoreMap.Simulation.Stores;

namespace StoreMap.Tests;

/// <summary>The replay is held against the visit itself, whose own record of the gas at each reading was made while it was walked.</summary>
public class VisitReplayTests
{
    private static readonly SimulatedStore Store = Enumerable.Range(0, 60).Select(i => StoreMaker.Make(3, i))
        .First(s => s.Case == StoreCase.OneLeak && s.Leaks[0].Site == LeakSite.Interior && s.Leaks[0].OuncesPerDay > 5);

    private static readonly Surveyor Visit = Walk();

    [Fact]
    public void Gas_OfTheLeakItself_IsWhatTheVisitMetButForTheSlipOfTheHand()
    {
        var gas = VisitReplay.Gas(Store, Visit, Store.Leaks[0]);
        var held = Visit.Noted.Select((r, i) => (Reading: r, Replayed: gas[i])).Where(p => p.Reading.HoldSeconds > 0).ToList();
        Assert.Contains(held, p => p.Reading.SinceSeconds is not null && p.Replayed > 5);
        // The slip is 5 cm, over which a trace that falls to 1/e in 1 m or more changes by a few hundredths.
        Assert.All(held, p => Assert.InRange(p.Replayed, (0.75 * p.Reading.GasPpm) - 0.01, (1.3 * p.Reading.GasPpm) + 0.01));
        Assert.InRange(held.Sum(p => p.Replayed) / held.Sum(p => p.Reading.GasPpm), 0.95, 1.05);
    }

    [Fact]
    public void Gas_OfTwiceTheLeak_IsTwiceAsMuch()
    {
        var leak = Store.Leaks[0];
        var (once, twice) = (VisitReplay.Gas(Store, Visit, leak), VisitReplay.Gas(Store, Visit, leak with { OuncesPerDay = 2 * leak.OuncesPerDay }));
        Assert.All(once.Zip(twice), p => Assert.Equal(2 * p.First, p.Second, 1e-9 + (1e-9 * p.Second)));
    }

    private static Surveyor Walk()
    {
        var surveyor = new Surveyor(Store);
        SurveyPasses.Coarse(Store, surveyor);
        var hits = SurveyPasses.Hits(Store, surveyor);
        SurveyPasses.CloseIn(Store, surveyor, hits);
        SurveyPasses.FansOff(Store, surveyor, hits);
        return surveyor;
    }
}
