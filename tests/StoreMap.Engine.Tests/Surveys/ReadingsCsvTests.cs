using CsCheck;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>The readings contract of docs/formats.md: ISO 8601 times, places, limits.</summary>
public class ReadingsCsvTests
{
    private const double Close = 1e-12;

    [Fact]
    public void Read_ThreeKindsOfPlace_PutsThemOnThePlan()
    {
        var survey = TestStore.Read("""
            time,ppm,point,fixture,at,x,y
            2026-03-04 21:00:00,2,C2-3,,,,
            2026-03-04 21:00:30,3,,C1,6,,
            2026-03-04 21:01:00,4,,,,30,28
            2026-03-04 21:01:30,5,,,,50,20
            2026-03-04 21:02:00,6,,,,80,50
            2026-03-04 21:02:30,7,,,,50,55
            """).Survey;
        var places = survey.Readings.Select(r => r.Place).ToArray();
        Assert.Equal(["C2", "C1", "C2", null, null, "W1"], places.Select(p => p.Fixture));
        Assert.Equal([null, null, null, null, "R1", "W1"], places.Select(p => p.Room));
        Assert.Equal("C2-3", places[0].Point);
        Assert.Equal(10, places[0].Along!.Value / TestStore.Ft, Close);
        // The front of C1 runs from right to left: 6 ft from (44,13) is (38,13).
        Assert.Equal(38, places[1].At.X / TestStore.Ft, Close);
        Assert.Equal(10, places[2].Along!.Value / TestStore.Ft, 1e-9);
        Assert.Equal(28, places[2].At.Y / TestStore.Ft, Close);
    }

    /// <summary>As on a tape laid from the left end facing the case, and as the sheets say it; as written with a tape's units too.</summary>
    [Theory]
    [InlineData("C2,,6,front", 6)]
    [InlineData("C3,,6,front", 18)] // its front runs from the right
    [InlineData("I1,,4,front", 4)]
    [InlineData("I1,,4,back", 8)] // facing the back, left is the front's right
    [InlineData("C2,\"14' 6\"\"\",,front", 14.5)]
    [InlineData("C2,,14'6,front", 14.5)]
    [InlineData("C2,1.524 m,,front", 5)]
    public void Read_DistanceFromTheLeftOrWithItsUnit_IsTheSamePlace(string cells, double at) => Assert.Equal(
        at, TestStore.Read("time,ppm,fixture,at,from-left,side\n2026-03-04 21:00,2," + cells + "\n").Survey.Readings[0].Place.Along!.Value / TestStore.Ft, 1e-9);

    [Fact]
    public void Read_MappingForSeveralFiles_TakesOurOwnNamesWhereTheFileHasThem()
    {
        var options = new SurveyReadOptions { Columns = SurveyReadOptions.ParseColumns("time=Stamp,ppm=Conc") };
        var result = TestStore.Read("time,Conc,point\n2026-03-04 21:00,2,B1\n", options);
        Assert.Equal(2, Assert.Single(result.Survey.Readings).Ppm);
        Assert.Contains("column-own", result.Warnings.Select(w => w.Rule));
    }

    [Theory]
    [InlineData(30, 27.01, "C2")] // 2.99 ft from the front
    [InlineData(30, 26.99, null)] // 3.01 ft
    [InlineData(66, 17, "I1")]
    [InlineData(66, 13, "I1")] // over the island
    [InlineData(42, 49, null)] // sales floor by the walk-in
    public void Read_XyNearAFront_BelongsToIt(double x, double y, string? fixture)
    {
        var text = FormattableString.Invariant($"time,ppm,x,y\n2026-03-04 21:00,2,{x},{y}\n");
        Assert.Equal(fixture, TestStore.Read(text).Survey.Readings[0].Place.Fixture);
    }

    [Fact]
    public void Read_XyByTheFarSideOfAnIsland_IsOnItsBack() =>
        Assert.True(TestStore.Read("time,ppm,x,y\n2026-03-04 21:00,2,66,17\n").Survey.Readings[0].Place.OnBack);

    [Theory]
    [InlineData("12", 12, ReadingBound.Exact)]
    [InlineData("0", 1, ReadingBound.Below)]
    [InlineData("0.4", 1, ReadingBound.Below)]
    [InlineData("1", 1, ReadingBound.Exact)]
    [InlineData("<1", 1, ReadingBound.Below)]
    [InlineData("< 5 ppm", 5, ReadingBound.Below)]
    [InlineData(">1000", 1000, ReadingBound.AtLeast)]
    [InlineData("OVER", 1000, ReadingBound.AtLeast)]
    [InlineData("1000", 1000, ReadingBound.AtLeast)]
    [InlineData("-3", 1, ReadingBound.Below)]
    public void Read_Number_IsBoundedByTheMonitor(string text, double ppm, ReadingBound bound)
    {
        var reading = TestStore.Read($"time,ppm,point\n2026-03-04 21:00,{text},B1\n").Survey.Readings[0];
        Assert.Equal((ppm, bound), (reading.Ppm, reading.Bound));
    }

    [Fact]
    public void Read_NumbersAboveTheUnstatedRange_RaiseTheRange()
    {
        var survey = TestStore.Read("time,ppm,point\n2026-03-04 21:00,1500,B1\n2026-03-04 21:01,over,B1\n").Survey;
        Assert.Equal(ReadingBound.Exact, survey.Readings[0].Bound);
        Assert.Equal(ReadingBound.AtLeast, survey.Readings[1].Bound);
        Assert.True(survey.Readings[1].Ppm > 1500);
    }

    [Fact]
    public void Read_NegativeAndMissingValues_WarnOnceWithCounts()
    {
        var result = TestStore.Read("time,ppm,point\n2026-03-04 21:00,-1,B1\n2026-03-04 21:01,-2,B1\n2026-03-04 21:02,,B1\n2026-03-04 21:03,4,B1\n");
        Assert.Equal(3, result.Survey.Readings.Count);
        Assert.Equal(["reading-missing", "reading-negative"], result.Warnings.Select(w => w.Rule));
        Assert.EndsWith("First of 2.", result.Warnings[1].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ZeroEvents_NeedNeitherNumberNorPlace()
    {
        var survey = TestStore.Read("time,ppm,point,event,instrument\n2026-03-04 21:00,2,B1,,M1\n2026-03-04 21:05,,,zero,M1\n2026-03-04 21:06,0,B1,,M1\n").Survey;
        Assert.Equal(2, survey.Readings.Count);
        Assert.Equal(new ZeroEvent(survey.Readings[0].Time.AddMinutes(5), "M1"), Assert.Single(survey.Zeroed));
        Assert.Equal(
            ["row 3: event: reading-event", "row 4: time: reading-time"],
            TestStore.Refused("time,ppm,point,event\n2026-03-04 21:00,2,B1,\n2026-03-04 21:05,,,start\nlater,,,zero\n"));
        Assert.Equal(
            ["row 3: instrument: reading-instrument"],
            TestStore.Refused("time,ppm,point,event,instrument\n2026-03-04 21:00,2,B1,,M1\n2026-03-04 21:05,,,zero,M2\n"));
    }

    [Fact]
    public void Read_SpotsStatesGasAndNotes_AreKept()
    {
        var reading = TestStore.Read(""""
            time,ppm,fixture,at,height,spot,air,cooling,cover,door,since,gas,instrument,note
            2026-03-04 21:00,2,27a,6,kick-plate,,fans-off,off,open,,90,r448a,M7,"by the ""valve"""
            """").Survey.Readings[0];
        Assert.Equal(Spot.KickPlate, reading.Spot);
        Assert.Null(reading.Height);
        Assert.Equal(AirState.FansOff, reading.Air);
        Assert.Equal(new AirDetail("off", "open", null, 90), reading.Detail);
        Assert.Equal(("R-448A", "M7", "by the \"valve\"", "C1"), (reading.Gas, reading.Instrument, reading.Note, reading.Place.Fixture));
    }

    [Fact]
    public void Read_BrokenRows_NamesEveryOne() => Assert.Equal(
        [
            "row 2: time: reading-time", "row 3: ppm: reading-ppm", "row 4: ppm: reading-ppm", "row 4: point: reading-point",
            "row 5: air: reading-air", "row 6: : reading-place", "row 7: at: reading-at", "row 8: fixture: reading-fixture",
            "row 8: height: reading-height", "row 9: : csv-row-length", "row 10: at: reading-at", "row 11: at: reading-number", "row 12: x,y: reading-outside",
        ],
        TestStore.Refused("""
            time,ppm,point,fixture,at,x,y,air,height
            yesterday,2,B1,,,,,,
            2026-03-04 21:00,NaN,B1,,,,,,
            2026-03-04 21:00,lots,B9,,,,,,
            2026-03-04 21:00,2,B1,,,,,windy,
            2026-03-04 21:00,2,,,,,,,
            2026-03-04 21:00,2,,C1,,,,,
            2026-03-04 21:00,2,,C99,3,,,,knee
            2026-03-04 21:00,2,B1
            2026-03-04 21:00,2,,C1,25,,,,
            2026-03-04 21:00,2,,C1,far,,,,
            2026-03-04 21:00,2,,,,400,20,,
            """));

    [Theory]
    [InlineData("ppm,point\n2,B1\n", "row 1: time: column-missing")]
    [InlineData("time,conc,point\n2026-03-04 21:00,2,B1\n", "row 1: ppm: column-missing")]
    [InlineData("time,ppm,x\n2026-03-04 21:00,2,4\n", "row 1: y: column-missing")]
    [InlineData("time,ppm\n2026-03-04 21:00,2\n", "row 1: : reading-place-columns")]
    [InlineData("time,ppm,point\n", ": : reading-none")]
    [InlineData("time,ppm,point\n2026-03-04 21:00,,B1\n", ": : reading-none")]
    [InlineData("time;ppm;point\n2026-03-04 21:00;1,5;B1\n2026-03-04 21:01;2.5;B1\n", "row 2: ppm: csv-decimals")]
    [InlineData("time,ppm,fixture,at,from-left\n2026-03-04 21:00,2,C1,3,4\n", "row 2: from-left: reading-at")]
    [InlineData("time,ppm,fixture,at\n2026-03-04 21:00,2,C1,3 yards\n", "row 2: at: reading-number")]
    [InlineData("time,ppm,fixture,side\n2026-03-04 21:00,2,C1,back\n", "row 2: side: reading-side")]
    [InlineData("time,ppm,fixture,at,since\n2026-03-04 21:00,2,C1,3,-4\n", "row 2: since: reading-since")]
    [InlineData("time,ppm,point\n2026-02-30 21:00,2,B1\n", "row 2: time: reading-time")]
    [InlineData("time,ppm,point\n1970-01-01 00:00:07,2,B1\n", "row 2: time: reading-time")]
    [InlineData("time,ppm,point\n2026-03-04 21:00,1e12,B1\n", "row 2: ppm: reading-ppm")]
    [InlineData("time,ppm,point\n2026-03-04 21:00,< 0,B1\n", "row 2: ppm: reading-ppm")]
    public void Read_BrokenFiles_SayWhatAndWhere(string text, string expected) =>
        Assert.Equal(expected, string.Join("|", TestStore.Refused(text)));

    [Fact]
    public void Read_ManyBrokenRows_ListsTheFirstAndCountsTheRest()
    {
        var text = "time,ppm,point\n" + string.Concat(Enumerable.Repeat("2026-03-04 21:00,x,B1\n", 500));
        var problems = Assert.Throws<RefusedInputException>(() => TestStore.Read(text)).Problems;
        Assert.Equal(21, problems.Count);
        Assert.Contains("480 more places", problems[20].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ParseColumns_WrongParts_NamesEach()
    {
        Assert.Equal("conc", SurveyReadOptions.ParseColumns("time=timestamp, ppm=conc")["ppm"]);
        var refused = Assert.Throws<RefusedInputException>(() => SurveyReadOptions.ParseColumns("time=a,speed=b,ppm"));
        Assert.Equal(["speed=b", "ppm"], refused.Problems.Select(p => p.Value));
    }

    [Fact]
    public void Read_AnyPlaceAlongAFront_ComesBackByXyAsTheSameDistance() =>
        Gen.Double[0, 24].Sample(at =>
        {
            var byAt = TestStore.Read(FormattableString.Invariant($"time,ppm,fixture,at\n2026-03-04 21:00,2,C1,{at:R}\n")).Survey.Readings[0].Place;
            var x = byAt.At.X / TestStore.Ft;
            var byXy = TestStore.Read(FormattableString.Invariant($"time,ppm,x,y\n2026-03-04 21:00,2,{x:R},13.5\n")).Survey.Readings[0].Place;
            Assert.Equal("C1", byXy.Fixture);
            Assert.Equal(byAt.Along!.Value, byXy.Along!.Value, 1e-9);
        });
}
