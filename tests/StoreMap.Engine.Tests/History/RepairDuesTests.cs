using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Tests.Sheets;

namespace StoreMap.Tests.History;

/// <summary>Dates against the worked example of 40 CFR 82.157 and 84.106 (annualising method): 60 lb added to a charge of 1,200 lb after
/// 90 days is 20.28 %, over 20 %, and starts the 30-day clock; 59 lb (19.94 %) does not.</summary>
public class RepairDuesTests
{
    private const double Pound = LengthUnits.KilogramsPerPound;

    [Theory]
    [InlineData(60, true)]
    [InlineData(59, false)]
    public void Over_AnnualisedRateAgainstTwentyPercent_StartsThirtyDaysAtTheAddition(double pounds, bool over)
    {
        var plan = SampleStore.Make(3) with { Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-448A", 1200 * Pound)] };
        var record = new ServiceRecord(plan.Id, [], [Added(new(2026, 3, 1), 10), Added(new(2026, 5, 30), pounds)]);
        var found = RepairDues.Over(plan, record, new DateOnly(2026, 6, 10));
        Assert.Equal(over, found.Count == 1);
        if (!over) return;
        Assert.Equal(20.28, found[0].Percent, 0.005);
        Assert.Equal(new DateOnly(2026, 6, 29), found[0].Due);
    }

    [Theory]
    [InlineData(15, 1)]
    [InlineData(14.9, 0)]
    public void Over_BelowFifteenPounds_IsOutOfScope(double charge, int count)
    {
        // 40 CFR 84.106: 15 lb is in scope from 2026, 14.9 lb is not (R-454C).
        var plan = SampleStore.Make(3) with { Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-454C", charge * Pound)] };
        var record = new ServiceRecord(plan.Id, [], [Added(new(2026, 3, 1), 10)]);
        Assert.Equal(count, RepairDues.Over(plan, record, new DateOnly(2026, 6, 10)).Count);
    }

    [Fact]
    public void Of_PassedInitialTest_AsksForTheFollowUpWithinTenDays()
    {
        // 40 CFR 82.157(e)(2), 84.106: follow-up within 10 days of the passed initial test.
        var finding = Finding(new(2026, 6, 18), new VerificationTest(new(2026, 6, 18), "initial", "bubble", true), FindingStatus.Verified);
        Assert.Equal((RepairDue.FollowUpTest, new DateOnly(2026, 6, 28)), RepairDues.Of(Shop(LengthUnit.Foot), Empty, finding, new(2026, 6, 20)));
    }

    [Fact]
    public void Of_RepairInAMetricStore_AsksForACheckWithinOneMonth() =>
        Assert.Equal((RepairDue.Check, new DateOnly(2026, 7, 18)), RepairDues.Of(Shop(LengthUnit.Metre), Empty, Finding(new(2026, 6, 18), null, FindingStatus.Repaired), new(2026, 6, 20)));

    [Fact]
    public void Of_OpenFindingOfASystemOverTheThreshold_IsDueWithItsSystem()
    {
        var record = new ServiceRecord("s", [], [Added(new(2026, 3, 1), 10), Added(new(2026, 5, 30), 60)]);
        Assert.Equal((RepairDue.Repair, new DateOnly(2026, 6, 29)), RepairDues.Of(Shop(LengthUnit.Foot), record, Finding(new(2026, 6, 1), null, FindingStatus.Open), new(2026, 6, 10)));
        Assert.Null(RepairDues.Of(Shop(LengthUnit.Foot), Empty, Finding(new(2026, 6, 1), null, FindingStatus.Open), new(2026, 6, 10)));
    }

    private static ServiceRecord Empty { get; } = new("s", [], []);

    private static Plan Shop(LengthUnit units) => TestShop.Shop with { Units = units, Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-448A", 1200 * Pound)] };

    private static ServiceFinding Finding(DateOnly day, VerificationTest? test, FindingStatus status) => ServiceFinding.Of(new ServiceRecord("s",
        [new ServiceEntry { Finding = "F1", Date = day, Fixture = "C1", Along = 1, Status = status, Tests = test is null ? [] : [test] }], [])).Single();

    private static RefrigerantMovement Added(DateOnly day, double pounds) => new(day, "A", "R-448A", pounds * Pound, 0);
}
