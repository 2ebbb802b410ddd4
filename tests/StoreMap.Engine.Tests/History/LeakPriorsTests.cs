using StoreMap.History;
using StoreMap.Zones;
using static StoreMap.Tests.History.TestShop;

namespace StoreMap.Tests.History;

/// <summary>Weights are judgement stated in <see cref="LeakPriorSettings"/>; common practice: leaks come back where they were.</summary>
public class LeakPriorsTests
{
    private static readonly DateOnly May = Day(5, 10), June = Day(6, 9), July = Day(7, 9);

    private static readonly LeakPriorSettings Settings = new();

    [Fact]
    public void From_FormerZone_WeighsMoreTheOftenerItWasSeen()
    {
        SurveyVisit may = Visit(May, [], Located(Sure("C1", 1))), june = Visit(June, [], Located(Sure("C1", 1.2), Sure("C2", 3)));
        var once = Priors([may], null);
        Assert.Equal(new LeakPrior("C1", 1, 4, "seen here 2026-05-10"), Assert.Single(once));
        var twice = Priors([june, may], null);
        Assert.Equal([("C1", 1.2, 8.0), ("C2", 3.0, 4.0)], twice.Select(p => (p.Fixture, p.Along!.Value, p.Weight)));
        Assert.Equal("seen here 2026-05-10 and 2026-06-09", twice[0].Reason);
    }

    [Fact]
    public void From_UnsureZone_WeighsLess() =>
        Assert.Equal(1 + (3 * 0.6), Assert.Single(Priors([Visit(May, [], Located(Zone("C1", 0.5, 1.5, 5, 0.6)))], null)).Weight, 12);

    [Fact]
    public void From_VisitsAndEntriesOfTheDayOrLater_AreLeftOut()
    {
        Assert.Empty(Priors([Visit(July, [], Located(Sure("C1", 1)))], null));
        Assert.Empty(Priors([], Record(Entry(July.AddDays(1), FindingStatus.Open))));
    }

    [Fact]
    public void From_VerifiedRepairSinceItWasSeen_WeighsBelowOne()
    {
        var record = Record(Entry(May, FindingStatus.Open), Entry(June, FindingStatus.Verified, new VerificationTest(June, "initial", "bubble", true)));
        var prior = Assert.Single(Priors([Visit(May, [], Located(Sure("C1", 1)))], record));
        Assert.Equal(0.5, prior.Weight);
        Assert.Equal("seen here 2026-05-10; repaired 2026-06-09, verified", prior.Reason);
    }

    [Fact]
    public void From_RepairBeforeItWasLastSeen_DoesNotLowerIt()
    {
        var record = Record(Entry(May.AddDays(5), FindingStatus.Verified, new VerificationTest(May.AddDays(5), "initial", "bubble", true)));
        Assert.Equal(8, Assert.Single(Priors([Visit(May, [], Located(Sure("C1", 1))), Visit(June, [], Located(Sure("C1", 1)))], record)).Weight);
    }

    [Theory]
    [InlineData(FindingStatus.Open, 10)]
    [InlineData(FindingStatus.Reopened, 10)]
    [InlineData(FindingStatus.Isolated, 0.5)]
    [InlineData(FindingStatus.Repaired, 2)]
    [InlineData(FindingStatus.Verified, 2)] // no test stands behind it
    public void From_FindingWithoutAZone_WeighsByItsStatus(FindingStatus status, double weight)
    {
        var prior = Assert.Single(Priors([], Record(Entry(June, status))));
        Assert.Equal(("C1", 1.0, weight), (prior.Fixture, prior.Along!.Value, prior.Weight));
    }

    [Fact]
    public void From_OpenFindingAtAZone_AddsToItOnce()
    {
        var prior = Assert.Single(Priors([Visit(May, [], Located(Sure("C1", 1)))], Record(Entry(May, FindingStatus.Open))));
        Assert.Equal(10, prior.Weight);
    }

    [Fact]
    public void From_SettingOfOne_LeavesThePlaceOut() =>
        Assert.Empty(LeakPriors.From(Shop, [Visit(May, [], Located(Sure("C1", 1)))], null, July, Settings with { SeenOnce = 1 }));

    private static IReadOnlyList<LeakPrior> Priors(IReadOnlyList<SurveyVisit> visits, ServiceRecord? record) =>
        LeakPriors.From(Shop, visits, record, July);

    private static LeakZone Sure(string fixture, double center) => Zone(fixture, center - 0.5, center + 0.5, 5, 1);

    private static ServiceRecord Record(params ServiceEntry[] entries) => new("test-shop", entries, []);

    private static ServiceEntry Entry(DateOnly day, FindingStatus status, params VerificationTest[] tests) =>
        new() { Finding = "F1", Date = day, Fixture = "C1", Along = 1, Status = status, Tests = tests };
}
