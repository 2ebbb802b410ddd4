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

    // The rule's words: repair within 30 days of when refrigerant is added to an appliance that exceeds the rate (40 CFR 82.157, 84.106).
    // 80 lb to 1,200 lb after 80 days is 30.42 %, 40 lb after 20 days 60.83 %, 5 lb after 20 days 7.60 %: the first sets the day.
    [Theory]
    [InlineData(40)]
    [InlineData(5)]
    public void Over_ALaterAdditionWithoutARepair_GivesNoMoreTime(double later)
    {
        var record = new ServiceRecord("s", [], [Added(new(2026, 3, 1), 10), Added(new(2026, 5, 20), 80), Added(new(2026, 6, 9), later)]);
        var over = Assert.Single(RepairDues.Over(Shop(LengthUnit.Foot), record, new DateOnly(2026, 6, 10)));
        Assert.Equal((new DateOnly(2026, 5, 20), new DateOnly(2026, 6, 19)), (over.Addition, over.Due));
        Assert.Equal(30.42, over.Percent, 0.005);
    }

    [Theory]
    [InlineData("2026-06-02", false, "2026-07-09")] // mended before the second addition, which then sets the day
    [InlineData("2026-06-12", false, null)] // mended after both
    [InlineData("2026-05-19", false, "2026-06-19")] // a test before the addition tells nothing of what it showed
    [InlineData("2026-06-12", true, "2026-06-19")] // another known leak is not mended
    [InlineData(null, false, "2026-06-19")]
    public void Over_ByTheDayOfThePassedTest_CountsFromTheFirstAdditionNotMendedSince(string? passed, bool another, string? due)
    {
        var found = new ServiceEntry { Finding = "F1", Date = new(2026, 5, 10), Fixture = "C1", Along = 1, Status = FindingStatus.Open };
        List<ServiceEntry> entries = [found];
        if (passed is not null) entries.Add(found with { Date = Day(passed), Status = FindingStatus.Verified, Tests = [new(Day(passed), "initial", "bubble", true)] });
        if (another) entries.Add(found with { Finding = "F2" });
        var record = new ServiceRecord("s", entries, [Added(new(2026, 3, 1), 10), Added(new(2026, 5, 20), 80), Added(new(2026, 6, 9), 40)]);
        Assert.Equal(due is null ? null : Day(due), RepairDues.Over(Shop(LengthUnit.Foot), record, new DateOnly(2026, 6, 20)).SingleOrDefault()?.Due);
    }

    [Theory]
    [InlineData(true, "2026-07-09")] // the follow-up of a repair made before the second addition is no repair after it
    [InlineData(false, "2026-06-19")] // "verified" without a test on record mends nothing
    public void Over_WithoutAPassedTestSince_IsStillDue(bool tested, string due)
    {
        var found = new ServiceEntry { Finding = "F1", Date = new(2026, 5, 10), Fixture = "C1", Along = 1, Status = FindingStatus.Open };
        VerificationTest[] initial = [new(new(2026, 6, 2), "initial", "bubble", true)], followUp = [new(new(2026, 6, 10), "follow-up", "bubble", true)];
        ServiceEntry[] entries =
        [
            found, found with { Date = new(2026, 6, 2), Status = FindingStatus.Verified, Tests = tested ? initial : [] },
            found with { Date = new(2026, 6, 10), Status = FindingStatus.Verified, Tests = tested ? followUp : [] },
        ];
        var record = new ServiceRecord("s", entries, [Added(new(2026, 3, 1), 10), Added(new(2026, 5, 20), 80), Added(new(2026, 6, 9), 40)]);
        Assert.Equal(Day(due), Assert.Single(RepairDues.Over(Shop(LengthUnit.Foot), record, new DateOnly(2026, 6, 20))).Due);
    }

    // 40 CFR 82.157(e), 84.106: a follow-up test passed ends the repair that the addition asked for; one failed, or gas again before it, does not.
    // 60 lb to 1,200 lb after 75 days is 24.33 %, 20 lb 8.11 %: only the former asks for another repair.
    [Theory]
    [InlineData(true, 0, null)]
    [InlineData(true, 20, null)]
    [InlineData(true, 60, "2026-09-02")]
    [InlineData(false, 0, "2026-06-19")]
    [InlineData(false, 60, "2026-06-19")]
    public void Over_ReopenedAfterAPassedFollowUpTest_CountsFromTheNextAdditionOverAndElseFromTheOld(bool followedUp, double later, string? due)
    {
        var found = new ServiceEntry { Finding = "F1", Date = new(2026, 5, 10), Fixture = "C1", Along = 1, Status = FindingStatus.Open };
        ServiceEntry[] entries =
        [
            found, found with { Date = new(2026, 6, 2), Status = FindingStatus.Verified, Tests = [new(new(2026, 6, 2), "initial", "bubble", true)] },
            found with { Date = new(2026, 6, 10), Status = followedUp ? FindingStatus.FollowedUp : FindingStatus.Reopened, Tests = [new(new(2026, 6, 10), "follow-up", "bubble", followedUp)] },
            found with { Date = new(2026, 8, 1), Status = FindingStatus.Reopened },
        ];
        var record = new ServiceRecord("s", entries, [Added(new(2026, 3, 1), 10), Added(new(2026, 5, 20), 80), Added(new(2026, 8, 3), later)]);
        var over = RepairDues.Over(Shop(LengthUnit.Foot), record, new DateOnly(2026, 8, 5));
        Assert.Equal(due is null ? null : Day(due), over.SingleOrDefault()?.Due);
        var next = RepairDues.Of(Shop(LengthUnit.Foot), record, ServiceFinding.Of(record).Single(), new DateOnly(2026, 8, 5));
        Assert.Equal(due is null ? null : (RepairDue.Repair, Day(due)), next);
    }

    [Fact]
    public void Over_AnAdditionBeforeTheRuleBegan_StartsNoClock()
    {
        // 40 CFR 84.106 holds from 1 January 2026: 40 lb after 20 days, 60.83 %, of December 2025 is before it.
        var record = new ServiceRecord("s", [], [Added(new(2025, 12, 1), 10), Added(new(2025, 12, 21), 40), Added(new(2026, 6, 9), 5)]);
        Assert.Empty(RepairDues.Over(Shop(LengthUnit.Foot), record, new DateOnly(2026, 6, 20)));
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

    private static DateOnly Day(string text) => DateOnly.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    private static ServiceFinding Finding(DateOnly day, VerificationTest? test, FindingStatus status) => ServiceFinding.Of(new ServiceRecord("s",
        [new ServiceEntry { Finding = "F1", Date = day, Fixture = "C1", Along = 1, Status = status, Tests = test is null ? [] : [test] }], [])).Single();

    private static RefrigerantMovement Added(DateOnly day, double pounds) => new(day, "A", "R-448A", pounds * Pound, 0);
}
