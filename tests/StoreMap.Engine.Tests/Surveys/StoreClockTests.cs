namespace StoreMap.Tests.Surveys;

/// <summary>Local times. Rules: tz database, America/Chicago in 2026: forward on 8 March 02:00 → 03:00, back on 1 November 02:00 → 01:00.</summary>
public class StoreClockTests
{
    private static (string[] Times, string[] Rules) Read(params string[] times)
    {
        var result = TestStore.Read("time,ppm,point\n" + string.Concat(times.Select((t, i) => $"{t},{i + 2},B1\n")));
        return (
            [.. result.Survey.Readings.OrderBy(r => r.Ppm).Select(r => r.Time.ToString("yyyy-MM-dd HH:mm:ss.fff zzz", System.Globalization.CultureInfo.InvariantCulture))],
            [.. result.Warnings.Select(w => w.Rule)]);
    }

    [Theory]
    [InlineData("2026-03-04 21:00:00", "2026-03-04 21:00:00.000 -06:00")]
    [InlineData("2026-03-04T21:00", "2026-03-04 21:00:00.000 -06:00")]
    [InlineData("20260304T210000", "2026-03-04 21:00:00.000 -06:00")]
    [InlineData("2026-03-04 21:00:00.25", "2026-03-04 21:00:00.250 -06:00")]
    [InlineData("2026-07-04T21:00:00", "2026-07-04 21:00:00.000 -05:00")]
    [InlineData("2026-03-05T03:00:00Z", "2026-03-04 21:00:00.000 -06:00")]
    [InlineData("2026-03-05 05:00:00+02:00", "2026-03-04 21:00:00.000 -06:00")]
    [InlineData("2026-03-05 05:00+0200", "2026-03-04 21:00:00.000 -06:00")]
    [InlineData("2026-03-04T21:00:00 -06", "2026-03-04 21:00:00.000 -06:00")]
    public void Read_IsoForms_GiveTheStoresTime(string text, string expected) => Assert.Equal(expected, Read(text).Times[0]);

    [Theory]
    [InlineData("21:00")]
    [InlineData("03/04/2026 21:00")]
    [InlineData("2026-03-04")]
    [InlineData("2026-03-04 25:00")]
    [InlineData("2026-03-04 21:00 CST")]
    [InlineData("2026-03-04 21:00+99:00")]
    public void Read_OtherForms_AreRefused(string text) =>
        Assert.Equal(["row 2: time: reading-time"], TestStore.Refused($"time,ppm,point\n{text},2,B1\n"));

    [Fact]
    public void Read_AcrossMidnight_KeepsOneVisitDatedByItsStart()
    {
        var survey = TestStore.Read("time,ppm,point\n2026-03-04 23:59:50,2,B1\n2026-03-05 00:00:10,3,B1\n").Survey;
        Assert.Equal(20, (survey.Readings[1].Time - survey.Readings[0].Time).TotalSeconds);
        Assert.Equal(4, survey.Start.Day);
    }

    [Fact]
    public void Read_RepeatedHour_FollowsTheOrderOfTheFile()
    {
        var (times, rules) = Read("2026-11-01 00:59", "2026-11-01 01:30", "2026-11-01 01:59", "2026-11-01 01:05", "2026-11-01 01:40", "2026-11-01 02:01");
        Assert.Equal(["-05:00", "-05:00", "-05:00", "-06:00", "-06:00", "-06:00"], times.Select(t => t[^6..]));
        Assert.Equal(["reading-time-repeated"], rules);
    }

    [Fact]
    public void Read_SkippedHour_ReadsTheRestOfTheDayByTheOldClock()
    {
        var (times, rules) = Read("2026-03-08 01:59", "2026-03-08 02:10", "2026-03-08 03:05", "2026-03-09 03:05");
        Assert.Equal(
            [
                "2026-03-08 01:59:00.000 -06:00", "2026-03-08 03:10:00.000 -05:00", "2026-03-08 04:05:00.000 -05:00",
                "2026-03-09 03:05:00.000 -05:00",
            ],
            times);
        Assert.Equal(["reading-time-skipped"], rules);
    }

    [Fact]
    public void Read_UnknownZone_WarnsAndReadsUtc()
    {
        var result = TestStore.Read("time,ppm,point\n2026-03-04 21:00,2,B1\n", plan: TestStore.Plan with { TimeZone = "Mars/Crater" });
        Assert.Equal(TimeSpan.Zero, result.Survey.Start.Offset);
        Assert.Equal("time-zone", result.Warnings[0].Rule);
    }
}
