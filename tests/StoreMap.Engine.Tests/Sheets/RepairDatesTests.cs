using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Tests.History;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

/// <summary>The sentence of when a repair is due, by the worked example of 40 CFR 82.157: 60 lb to 1,200 lb after 90 days is 20.28 % and due 30 days
/// after the addition of 30 May 2026.</summary>
public class RepairDatesTests
{
    private const double Pound = LengthUnits.KilogramsPerPound;

    [Theory]
    [InlineData("2026-06-29", "repair by 2026-06-29", "overdue")]
    [InlineData("2026-06-30", "overdue since 2026-06-29", "repair by")]
    public void Lines_DayOfTheReport_SaysWhetherTheDayIsPast(string day, string said, string unsaid)
    {
        var plan = TestShop.Shop with { Units = LengthUnit.Foot, Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-448A", 1200 * Pound)] };
        var record = new ServiceRecord("s", [], [Added(new(2026, 3, 1), 10), Added(new(2026, 5, 30), 60)]);
        var line = Assert.Single(RepairDates.Lines(plan, record, new LocateResult([], [], [], [], [], null), DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture), StoreMap.Sheets.Words.For("en")));
        Assert.Contains(said, line, StringComparison.Ordinal);
        Assert.DoesNotContain(unsaid, line, StringComparison.Ordinal);
    }

    private static RefrigerantMovement Added(DateOnly day, double pounds) => new(day, "A", "R-448A", pounds * Pound, 0);
}
