using StoreMap.History;

namespace StoreMap.Tests.History;

/// <summary>Worked examples of the two methods of 40 CFR 82.152 and 84.102, computed by hand; percent to 0.01.</summary>
public class LeakRateTests
{
    [Theory]
    [InlineData(60, 1200, 90, 20.28, true)]
    [InlineData(12, 60, 400, 20.00, false)] // counted as 365 days, not 18.25 %
    [InlineData(45, 1500, 40, 27.38, true)]
    [InlineData(30, 200, 120, 45.63, true)]
    [InlineData(59.17, 1200, 90, 20.00, false)]
    public void Annualising_WorkedExamples_GiveThePrintedRate(double added, double charge, int days, double percent, bool over)
    {
        var rate = LeakRate.Annualising(added, charge, days);
        Assert.Equal(percent, LeakRate.Rounded(rate));
        Assert.Equal(over, LeakRate.IsOver(rate, UsLeakRules.CommercialThresholdPercent));
    }

    [Theory]
    [InlineData(190, 1200, 15.83, false)] // 60 + 80 + 50
    [InlineData(250, 1200, 20.83, true)] // 100 + 90 + 60
    [InlineData(30, 200, 15.00, false)]
    public void Rolling_WorkedExamples_GiveThePrintedRate(double added, double charge, double percent, bool over)
    {
        Assert.Equal(percent, LeakRate.Rounded(LeakRate.Rolling(added, charge)));
        Assert.Equal(over, LeakRate.IsOver(LeakRate.Rolling(added, charge), 20));
    }

    [Fact]
    public void Annualised_Record_TakesTheLatestAdditionSinceTheOneBefore()
    {
        var record = Record((1, "A", 50), (91, "A", 60), (60, "B", 500));
        Assert.Equal(20.28, LeakRate.Rounded(LeakRate.Annualised(record, "A", 1200, Day(100))!.Value));
        Assert.Equal(50 / 1200.0 * 100, LeakRate.Annualised(record, "A", 1200, Day(90))!.Value, 12);
        Assert.Null(LeakRate.Annualised(record, "C", 1200, Day(100)));
    }

    [Fact]
    public void Annualised_AdditionsOfOneDay_CountAsOne() =>
        Assert.Equal(20.28, LeakRate.Rounded(LeakRate.Annualised(Record((0, "A", 1), (90, "A", 40), (90, "A", 20)), "A", 1200, Day(90))!.Value));

    [Fact]
    public void Rolled_Record_SumsAYearOrSinceAllWasFixed()
    {
        var record = Record((0, "A", 100), (30, "A", 60), (200, "A", 80), (365, "A", 50));
        Assert.Equal(15.83, LeakRate.Rounded(LeakRate.Rolled(record, "A", 1200, Day(365))));
        Assert.Equal(50 / 12.0, LeakRate.Rolled(record, "A", 1200, Day(365), Day(250)), 12);
        Assert.Equal(15.83, LeakRate.Rounded(LeakRate.Rolled(record, "A", 1200, Day(365), Day(-40))));
    }

    [Fact]
    public void CalendarYear_ChronicLeaker_OwesAReport()
    {
        var record = Record((10, "A", 70), (300, "A", 60), (400, "A", 60));
        var percent = LeakRate.CalendarYear(record, "A", 100, 2026);
        Assert.Equal(130, percent, 12);
        Assert.Equal(new DateOnly(2027, 3, 1), UsLeakRules.ChronicReportDue(percent, 2026));
        Assert.Null(UsLeakRules.ChronicReportDue(124.99, 2026));
    }

    [Theory]
    [InlineData(-1, 100, 30)]
    [InlineData(1, 0, 30)]
    [InlineData(1, 100, 0)]
    public void Annualising_ImpossibleInput_IsRefused(double added, double charge, int days) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => LeakRate.Annualising(added, charge, days));

    private static DateOnly Day(int number) => new DateOnly(2026, 1, 1).AddDays(number);

    private static ServiceRecord Record(params (int Day, string System, double Kilograms)[] additions) =>
        new("store", [], [.. additions.Select(a => new RefrigerantMovement(Day(a.Day), a.System, "R-448A", a.Kilograms, 0))]);
}
