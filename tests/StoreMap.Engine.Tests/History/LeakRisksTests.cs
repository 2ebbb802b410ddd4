using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Tests.Routing;
using StoreMap.Zones;

namespace StoreMap.Tests.History;

/// <summary>Expected leaks at each probe point, worked by hand from the locator's rates: 0.003 a metre of case, 0.03 a walk-in, 1.5 times
/// for meat, odds of 3 within 0.4 m of a drop.</summary>
public class LeakRisksTests
{
    [Fact]
    public void Of_PlainCase_SharesItsLengthAmongItsPoints()
    {
        var plan = StoreScene.Store(StoreScene.Case("C1", FixtureKind.OpenCase, 20, 40, 36));
        var (points, risks) = Risks(plan);
        Assert.Equal(0.003 * 36 * 0.3048, risks.Expected.Values.Sum(), 1e-12);
        var front = points.Where(p => p.Pass == ProbePass.Front).ToList();
        Assert.All(front, p => Assert.InRange(risks.At(p.Id), 0.003 * 36 * 0.3048 / front.Count * 0.9, 0.003 * 36 * 0.3048 / front.Count * 1.1));
        Assert.Equal(0, risks.At("zero-E1"));
    }

    [Fact]
    public void Of_MeatWalkInPlugInAndEquipment_CountAsTheRatesSay()
    {
        var plan = StoreScene.Store(
            StoreScene.Case("C1", FixtureKind.OpenCase, 20, 40, 12) with { Product = "fresh meat" }, StoreScene.WalkIn("W1", 100, 60, 20, 20),
            StoreScene.Case("P1", FixtureKind.SelfContained, 60, 40, 4)) with
        {
            Equipment = [new("Q1", EquipmentKind.Rack, StoreScene.Feet(5, 95), "floor", "A")],
        };
        var (points, risks) = Risks(plan);
        double Sum(string? fixture) => points.Where(p => p.Fixture == fixture).Sum(p => risks.At(p.Id));
        Assert.Equal(0.003 * 12 * 0.3048 * 1.5, Sum("C1"), 1e-12);
        Assert.Equal(0.03, Sum("W1"), 1e-12);
        Assert.Equal(0.03 * 0.7, points.Where(p => p.Pass == ProbePass.Coil).Sum(p => risks.At(p.Id)), 1e-12);
        Assert.Equal(0.003, Sum("P1"), 1e-12);
        Assert.Equal(0.05, risks.At("Q1-K01"), 1e-12);
    }

    [Fact]
    public void Of_CaseWithADrop_RaisesThePointNearestToIt()
    {
        var plan = StoreScene.Store(StoreScene.Case("C1", FixtureKind.OpenCase, 20, 40, 36)) with { Drops = [new("D1", StoreScene.Feet(22, 42), ["C1"])] };
        var (points, risks) = Risks(plan);
        Assert.Equal(points.Where(p => p.Along is not null).MinBy(p => Math.Abs(p.Along!.Value - (2 * 0.3048)))!.Id, risks.Expected.MaxBy(e => e.Value).Key);
        Assert.Equal(0.003 * 36 * 0.3048, risks.Expected.Values.Sum(), 1e-12);
        Assert.Equal("line drop", risks.Reasons["C1"]);
    }

    [Fact]
    public void Of_HistoryAndAge_MultiplyWhatIsExpected()
    {
        var plan = StoreScene.Store(StoreScene.WalkIn("W1", 100, 60, 20, 20) with { Installed = 2006 }, StoreScene.WalkIn("W2", 20, 60, 20, 20));
        var points = ProbePlanner.Draft(plan, new Protocol()).Points;
        var risks = LeakRisks.Of(plan, points, [new LeakPrior("W2", null, 8, "seen here twice")], new DateOnly(2026, 8, 4));
        // Twenty years at 5 % a year of a new one's rate double it.
        Assert.Equal(0.03 * 2, points.Where(p => p.Fixture == "W1").Sum(p => risks.At(p.Id)), 1e-12);
        Assert.Equal(0.03 * 8, points.Where(p => p.Fixture == "W2").Sum(p => risks.At(p.Id)), 1e-12);
        Assert.Equal(("20 years old", "seen here twice"), (risks.Reasons["W1"], risks.Reasons["W2"]));
    }

    private static (IReadOnlyList<ProbePoint> Points, RiskWeights Risks) Risks(Plan plan)
    {
        var points = ProbePlanner.Draft(plan, new Protocol()).Points;
        return (points, LeakRisks.Of(plan, points, []));
    }
}
