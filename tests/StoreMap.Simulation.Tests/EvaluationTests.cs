using StoreMap.Evaluation;
using StoreMap.Plans;
using StoreMap.Simulation.Stores;

namespace StoreMap.Tests;

/// <summary>A dozen simulated stores through the whole evaluation.</summary>
public class EvaluationTests
{
    private static readonly Lazy<IReadOnlyList<Outcome>> Dozen = new(() =>
        [.. Enumerable.Range(0, 12).Select(i => StoreJudge.Judge(StoreMaker.Make(1, i), new JudgeParts(Continuous: false, Smallest: false, Advice: false, Knowing: false, Dump: null)))]);

    [Fact]
    public void Judge_ADozenStores_BeatsThePlaceOfTheHighestReading()
    {
        var close = Dozen.Value.Where(o => o.Store.Case == StoreCase.OneLeak && o.Detectable).SelectMany(o => o.Places).Where(p => p.Stage == Stage.CloseIn).ToList();
        var own = Median(close.Where(p => p.Method == Method.StoreMap));
        Assert.InRange(own, 0, 2);
        Assert.True(own <= Median(close.Where(p => p.Method == Method.FixtureCentre)));
    }

    [Fact]
    public void KnowingRival_StrongLeak_KnowsItsPlaceBetterWithEachPass()
    {
        var store = StoreMaker.Make(1, 6);
        Assert.InRange(store.Leaks[0].OuncesPerDay, 5, 40);
        var known = StoreJudge.Judge(store, new JudgeParts(Continuous: false, Smallest: false, Advice: false, Knowing: true, Dump: null)).Knowing;
        Assert.Equal([Stage.Coarse, Stage.CloseIn, Stage.FansOff], known.Select(k => k.Stage));
        Assert.All(known, k => Assert.True(k.Covered && k.ErrorFeet < k.WidthFeet));
        Assert.True(known[0].WidthFeet > known[1].WidthFeet && known[1].WidthFeet > known[2].WidthFeet && known[2].WidthFeet < 3);
    }

    [Fact]
    public void Judge_CleanStores_NamesNoLikelyZone()
    {
        var clean = Dozen.Value.Where(o => o.Store.Case == StoreCase.Clean).SelectMany(o => o.Stores).ToList();
        Assert.NotEmpty(clean);
        Assert.All(clean, a => Assert.Equal(0, a.LikelyZones));
    }

    [Fact]
    public void Make_SameSeed_GivesTheSameStoreAndTheSameReadings()
    {
        Assert.Equal(Coarse(3), Coarse(3));
        Assert.NotEqual(Coarse(3), Coarse(5));
    }

    [Fact]
    public void Make_AHundredStores_AreOfEveryKindAndValid()
    {
        var stores = Enumerable.Range(0, 100).Select(i => StoreMaker.Make(9, i)).ToList();
        Assert.Equal(Enum.GetValues<StoreCase>(), stores.Select(s => s.Case).Distinct().Order());
        Assert.Equal(56, stores.Count(s => s.Case == StoreCase.OneLeak));
        Assert.Equal(50, stores.Count(s => s.Roughness == Roughness.Rough));
        Assert.Equal(2, stores.Select(s => s.Plan.Units).Distinct().Count());
        Assert.Equal(4, stores.SelectMany(s => s.Plan.Fixtures).Select(f => f.Kind).Where(k => k != FixtureKind.ServiceCase).Distinct().Count());
        Assert.Contains(stores.SelectMany(s => s.Plan.Fixtures), f => f.Front is not null && !f.FrontStartsLeft);
        // Two leaks are at least 8 ft apart.
        Assert.All(stores.Where(s => s.Leaks.Count == 2), s => Assert.True(s.Leaks[0].At.DistanceTo(s.Leaks[1].At) >= 8 * LengthUnits.MetresPerFoot - 1e-9));
    }

    [Fact]
    public void Surveyor_StrongLeak_ReadsHighestNearItAndLittleInACleanTwin()
    {
        var store = StoreMaker.Make(1, 6);
        var leak = store.Leaks[0];
        var surveyor = new Surveyor(store);
        SurveyPasses.Coarse(store, surveyor);
        var highest = surveyor.Noted.MaxBy(r => r.GasPpm)!;
        Assert.Equal(leak.Fixture, highest.Place.Fixture);
        Assert.True(highest.Place.At.DistanceTo(leak.At) < 3);
        var clean = new Surveyor(StoreMaker.With(store, []));
        SurveyPasses.Coarse(store, clean);
        Assert.All(clean.Noted, r => Assert.Equal(0, r.GasPpm));
    }

    private static string Coarse(int number)
    {
        var store = StoreMaker.Make(1, number);
        var surveyor = new Surveyor(store);
        SurveyPasses.Coarse(store, surveyor);
        return surveyor.ReadingsCsv();
    }

    private static double Median(IEnumerable<PlaceAnswer> answers)
    {
        double[] errors = [.. answers.Select(a => a.ErrorFeet).Order()];
        return errors[errors.Length / 2];
    }
}
