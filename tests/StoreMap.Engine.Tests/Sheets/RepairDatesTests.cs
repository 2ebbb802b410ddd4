using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

/// <summary>Dates against the worked example of 40 CFR 82.157 and 84.106 (annualising method): 60 lb added to a charge of 1,200 lb after
/// 90 days is 20.28 %, over 20 %, and starts the 30-day clock; 59 lb (19.94 %) does not.</summary>
public class RepairDatesTests
{
    private const double Pound = LengthUnits.KilogramsPerPound;

    [Theory]
    [InlineData(60, true)]
    [InlineData(59, false)]
    public void Over_AnnualisedRateAgainstTwentyPercent_StartsThirtyDaysAtTheAddition(double pounds, bool over)
    {
        var plan = SampleStore.Make(3) with { Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-448A", 1200 * Pound)] };
        var record = new ServiceRecord(plan.Id, [], [Added(new(2026, 3, 1), 10), Added(new(2026, 5, 30), pounds)]);
        var found = RepairDates.Over(plan, record, new DateOnly(2026, 6, 10));
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
        Assert.Equal(count, RepairDates.Over(plan, record, new DateOnly(2026, 6, 10)).Count);
    }

    private static RefrigerantMovement Added(DateOnly day, double pounds) => new(day, "A", "R-448A", pounds * Pound, 0);
}
