using System.Globalization;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Background and net readings. The levels and the action level are common practice of the trade; the detection levels are
/// Currie's (Analytical Chemistry 40 (1968) 586).</summary>
public class NetSurveyTests
{
    private static NetSurvey Build(string[] rows, SurveySettings? settings = null, string columns = "point,fixture,at,x,y,gas,instrument") =>
        NetSurveyBuilder.Build(
            TestStore.Plan,
            TestStore.Read($"time,ppm,{columns}\n" + string.Concat(rows.Select((r, i) => Time(i) + "," + r + "\n"))).Survey, settings);

    private static string Time(int index) =>
        new DateTime(2026, 3, 4, 21, 0, 0).AddSeconds(30 * index).ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);

    private static string Point(string ppm, string point) => $"{ppm},{point},,,,,,";

    private static string Case(string ppm, string fixture, int at, string gas = "", string monitor = "") => $"{ppm},,{fixture},{at},,,{gas},{monitor}";

    private static string Xy(string ppm, int x, int y) => $"{ppm},,,,{x},{y},,";

    [Fact]
    public void Build_CleanStore_HasNoHitAndNoBackground()
    {
        var net = Build([Point("0", "B1"), .. Enumerable.Range(0, 20).Select(i => Case("<1", "C2", i))]);
        Assert.DoesNotContain(net.Readings, r => r.IsHit);
        var floor = Assert.Single(net.Rooms);
        Assert.Equal((null, "Sales floor", 0.0, false), (floor.Room, floor.Name, floor.Ppm, floor.Raised));
        Assert.All(net.Readings, r => Assert.Equal(ReadingBound.Below, r.Bound));
        Assert.Empty(net.Warnings);
    }

    [Theory]
    [InlineData("2", true)]
    [InlineData("1", false)]
    public void Build_ReadingOverCleanAir_IsAHitFromTwoPpm(string ppm, bool hit)
    {
        var net = Build([Point("0", "B1"), Case("0", "C2", 2), Case(ppm, "C2", 6), Case("0", "C2", 10), Case("0", "C2", 14)]);
        Assert.Equal(hit, net.Readings[2].IsHit);
        Assert.Equal(2, net.Readings[2].ActionPpm);
    }

    [Fact]
    public void Build_RaisedFloor_IsTakenOffAndTheLeakStays()
    {
        var net = Build([
            Point("4", "B1"), .. Enumerable.Range(0, 10).Select(i => Case(i % 3 == 0 ? "3" : "4", "C2", i)),
            Case("9", "C2", 12), Case("14", "C2", 14), Case("8", "C2", 16), .. Enumerable.Range(18, 6).Select(i => Case("4", "C2", i)),
        ]);
        Assert.InRange(net.Rooms[0].Ppm, 3.5, 4.1);
        Assert.Equal([11, 12, 13], net.Readings.Index().Where(r => r.Item.IsHit).Select(r => r.Index));
        Assert.InRange(net.Readings[12].NetPpm, 9.8, 10.6);
    }

    [Fact]
    public void Build_SameLevelEverywhere_IsNoLeakButTold()
    {
        var net = Build([Point("5", "B1"), .. Enumerable.Range(0, 12).Select(i => Case("5", i % 2 == 0 ? "C2" : "C1", i))]);
        Assert.DoesNotContain(net.Readings, r => r.IsHit);
        Assert.True(net.Rooms[0].Raised);
        Assert.Contains("not a leak", net.Rooms[0].Reason!, StringComparison.Ordinal);
        Assert.Equal("room-raised", Assert.Single(net.Warnings).Rule);
    }

    [Fact]
    public void Build_DriftingMonitor_FollowsTheDriftAndNotTheLeak()
    {
        // Zero wanders up 3 ppm in two hours; a leak of 12 ppm is passed half-way.
        var rows = Enumerable.Range(0, 240).Select(i =>
        {
            var leak = 12 * Math.Exp(-Math.Abs(i - 120) / 4.0);
            return Case(Math.Round((3.0 * i / 240) + leak).ToString(CultureInfo.InvariantCulture), "C2", i / 10);
        });
        var net = Build([.. rows]);
        Assert.All(net.Readings.Index(), r => Assert.InRange(r.Item.BackgroundPpm - (3.0 * r.Index / 240), -0.8, 0.8));
        var hits = net.Readings.Index().Where(r => r.Item.IsHit).Select(r => r.Index).ToArray();
        Assert.Contains(120, hits);
        Assert.All(hits, i => Assert.InRange(i, 110, 130));
    }

    [Fact]
    public void Build_Bakery_IsExplainedAsSprayAndStillDueItsCheck()
    {
        var net = Build([
            Point("0", "B1"), Case("0", "C2", 4), Case("0", "C2", 8),
            Point("4", "B2"), Xy("5", 75, 45), Xy("4", 85, 45), Xy("4", 95, 48),
        ]);
        Assert.DoesNotContain(net.Readings, r => r.IsHit);
        var bakery = net.Rooms.Single(r => r.Room == "R1");
        Assert.True(bakery.Raised);
        Assert.Contains("once a year", bakery.Reason!, StringComparison.Ordinal);
        Assert.False(net.Rooms[0].Raised);
    }

    [Fact]
    public void Build_FreezerAtTheBakerysLevel_IsBackgroundToo()
    {
        var net = Build([
            Point("0", "B1"), Point("4", "B2"), Xy("4", 75, 45), Xy("4", 85, 45), Xy("4", 95, 53), Xy("4", 96, 57), Xy("4", 98, 52),
        ]);
        Assert.DoesNotContain(net.Readings, r => r.IsHit);
        var freezer = net.Rooms.Single(r => r.Room == "W2");
        Assert.True(freezer.Raised);
        Assert.Contains("outside its door", freezer.Reason!, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_WalkInEvenlyAboveTheRoomOutside_IsAHitInMixedAir()
    {
        var net = Build([
            Point("0", "B1"), Case("0", "C2", 4), Case("0", "C2", 8), Xy("6", 42, 53), Xy("6", 50, 58), Xy("7", 58, 52), Xy("6", 52, 52),
        ]);
        Assert.Equal(4, net.Readings.Count(r => r.IsHit));
        Assert.False(net.Rooms.Single(r => r.Room == "W1").Raised);
        Assert.Equal("walk-in-mixed", Assert.Single(net.Warnings).Rule);
    }

    [Fact]
    public void Build_Co2_IsJudgedAgainstTheRoom()
    {
        var net = Build([
            Point("650", "B1"), .. Enumerable.Range(0, 8).Select(i => Case("670", "C3", 2 * i)), Case("1100", "C3", 18), Case("660", "C3", 22),
        ]);
        Assert.Equal([9], net.Readings.Index().Where(r => r.Item.IsHit).Select(r => r.Index));
        Assert.InRange(net.Readings[9].NetPpm, 400, 470);
        Assert.True(net.Readings[9].ActionPpm >= 200);
        Assert.DoesNotContain(net.Rooms, r => r.Raised);
    }

    [Fact]
    public void Build_WrongGasSet_IsHitOrNoHitUnlessTheTableHelps()
    {
        string[] rows = [Point("0", "B1"), Case("0", "C2", 2, "R-404A"), Case("10", "C2", 6, "R-404A"), Case("0", "C2", 10, "R-404A")];
        var net = Build(rows);
        Assert.Equal([false, true, true, true], net.Readings.Select(r => r.HitOnly));
        Assert.True(net.Readings[2].IsHit);
        Assert.Equal((ReadingBound.AtLeast, ReadingBound.Below), (net.Readings[2].Bound, net.Readings[1].Bound));
        Assert.Equal("gas-setting", Assert.Single(net.Warnings).Rule);

        var table = Build(rows, new SurveySettings { Responses = [new GasResponse("R-404A", "R-448A", 1.25)] });
        Assert.DoesNotContain(table.Readings, r => r.HitOnly);
        Assert.Equal(12.5, table.Readings[2].NetPpm, 0.01);
        Assert.Empty(table.Warnings);
    }

    [Fact]
    public void Build_OverRangeAndCarryOver_AreBoundedNotNumbers()
    {
        var net = Build([
            Point("0", "B1"), Case("0", "C2", 2), Case("over", "C2", 6), Case("400", "C2", 10), Case("60", "C2", 14), Case("0", "C2", 18), Case("8", "C2", 22),
        ]);
        Assert.Equal((ReadingBound.AtLeast, 1000.0, true), (net.Readings[2].Bound, net.Readings[2].NetPpm, net.Readings[2].IsHit));
        Assert.Equal([false, false, false, true, true, false, false], net.Readings.Select(r => r.CarryOver));
        Assert.All(net.Readings.Skip(3).Take(2), r => Assert.Equal((ReadingBound.Below, false), (r.Bound, r.IsHit)));
        Assert.Equal([null, null, null, 30, 60, null, null], net.Readings.Select(r => r.SecondsSinceOverRange));
        Assert.True(net.Readings[6].IsHit);
        Assert.Equal("carry-over", Assert.Single(net.Warnings).Rule);
    }

    [Fact]
    public void Build_ZeroedMonitor_CutsTheBackground()
    {
        var rows = Enumerable.Range(0, 40).Select(i => Case(i < 20 ? "6" : "0", "C2", i / 2)).ToArray();
        var survey = TestStore.Read("time,ppm,point,fixture,at,x,y,gas,instrument\n" + string.Concat(rows.Select((r, i) => Time(i) + "," + r + "\n"))).Survey;
        var net = NetSurveyBuilder.Build(
            TestStore.Plan, survey with { Zeroed = [new ZeroEvent(survey.Readings[20].Time.AddSeconds(-5), null)] });
        Assert.All(net.Readings.Take(20), r => Assert.InRange(r.BackgroundPpm, 5.5, 6.3));
        Assert.All(net.Readings.Skip(20), r => Assert.InRange(r.BackgroundPpm, 0, 0.3));
        Assert.DoesNotContain(net.Readings, r => r.IsHit);
    }

    [Fact]
    public void Build_TwoMonitorsWithTheirOwnZeros_AreJudgedApart()
    {
        var net = Build([.. Enumerable.Range(0, 40).Select(i => Case(i % 2 == 0 ? "0" : "6", "C2", i / 2, "", i % 2 == 0 ? "M1" : "M2"))]);
        Assert.DoesNotContain(net.Readings, r => r.IsHit);
        Assert.All(net.Readings.Where(r => r.Reading.Instrument == "M2"), r => Assert.InRange(r.NetPpm, -0.3, 0.3));
    }

    [Fact]
    public void Build_GasAtOneCaseOfARoomWithoutAirReading_IsNoBackground()
    {
        // Two readings on the island, nothing else: gas there is the island's.
        var net = Build([Case("11", "I1", 2), Case("12", "I1", 8)]);
        Assert.Equal(2, net.Readings.Count(r => r.IsHit));
    }

    [Fact]
    public void Build_ActionLevels_AreSettableAndNeverBelowTheMonitorsLimit()
    {
        string[] rows = [Point("0", "B1"), Case("1", "C2", 2)];
        Assert.Equal(5, Build(rows, new SurveySettings { ActionByRefrigerant = new Dictionary<string, double> { ["R-448A"] = 5 } }).Readings[1].ActionPpm);
        var low = Build(rows, new SurveySettings { ActionPpm = 0.01 }).Readings[1];
        Assert.True(low.ActionPpm >= 1 && low.ActionPpm == low.DetectionPpm);
    }
}
