using System.Text.Json.Nodes;
using CsCheck;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

public class JournalReplayTests
{
    private static readonly DateTimeOffset Start = new(2026, 8, 4, 4, 0, 0, TimeSpan.FromHours(-5));

    [Fact]
    public void Event_WrittenAndRead_IsTheSame()
    {
        var text = Event(3, JournalKinds.Reading, Reading(1.5, "7")).Write();
        Assert.Equal(text, JournalEvent.Parse(text)!.Write());
    }

    [Theory]
    [InlineData("")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("""{"v":1,"id":"a b","survey":"s","device":"d","number":1,"time":"2026-08-04T04:00:00.000-05:00","kind":"note","body":{}}""")]
    [InlineData("""{"v":0,"id":"a","survey":"s","device":"d","number":1,"time":"2026-08-04T04:00:00.000-05:00","kind":"note","body":{}}""")]
    [InlineData("""{"v":1,"id":"a","survey":"s","device":"d","number":"1","time":"2026-08-04T04:00:00.000-05:00","kind":"note","body":{}}""")]
    [InlineData("""{"v":1,"id":"a","survey":"s","device":"d","number":1,"time":"2026-08-04T04:00:00","kind":"note","body":{}}""")]
    public void Parse_NoEvent_GivesNull(string text) => Assert.Null(JournalEvent.Parse(text));

    [Fact]
    public void Replay_Readings_MakeASurveyFileThatReads()
    {
        var state = Replay(
            Event(0, JournalKinds.Start, new JsonObject { ["technician"] = "Ann", ["instrument"] = new JsonObject { ["id"] = "m1", ["delay"] = 6 } }),
            Event(1, JournalKinds.Reading, Reading(4, "7")), Event(2, JournalKinds.Reading, Reading(8, "<1")));
        var survey = JournalReplay.Read(state, TestStore.Plan, []).Survey;
        Assert.Equal(["Ann"], survey.Technicians);
        Assert.Equal(6, survey.Instruments[0].DelaySeconds);
        Assert.Equal([(7, ReadingBound.Exact), (1, ReadingBound.Below)], survey.Readings.Select(r => (r.Ppm, r.Bound)));
        Assert.Equal([Start.AddMinutes(1), Start.AddMinutes(2)], survey.Readings.Select(r => r.Time));
    }

    [Fact]
    public void Replay_WithdrawnReading_IsGoneAndItsPointOpenAgain()
    {
        var state = Replay(Event(1, JournalKinds.Reading, Reading(4, "7", "P1")), Event(2, JournalKinds.Withdraw, new JsonObject { ["of"] = "e1" }));
        Assert.Empty(state.Read);
        Assert.Empty(state.File["readings"]!.AsArray());
    }

    [Fact]
    public void Replay_SkippedPointReadLater_IsNoLongerSkipped()
    {
        var skip = Event(1, JournalKinds.Skip, new JsonObject { ["point"] = "P1", ["reason"] = "cart in the way" });
        Assert.Equal([new SkippedPoint("P1", "cart in the way")], Replay(skip).Skipped);
        Assert.Empty(Replay(skip, Event(2, JournalKinds.Reading, Reading(4, "7", "P1"))).Skipped);
    }

    [Fact]
    public void Replay_Stops_TellWhereTheyWereReadWhetherItWasAiredAndWhetherWorkWentOn()
    {
        JournalEvent Stop(int number) => Event(number, JournalKinds.StopWork, JsonNode.Parse("""{"gas":"R-448A","ppm":1200,"level":"leave"}""")!.AsObject());
        var stops = Replay(
            Stop(0), Event(1, JournalKinds.Reading, JsonNode.Parse("""{"fixture":"C1","at":4.5,"ppm":"1200","point":"P1"}""")!.AsObject()), Stop(2), Event(3, JournalKinds.StopAnswered, []),
            Event(4, JournalKinds.Reading, JsonNode.Parse("""{"fixture":"C1","at":8,"ppm":"1300"}""")!.AsObject()), Stop(5), Event(6, JournalKinds.StopAnswered, []) with { Device = "d2" }).Stops;
        Assert.Equal([null, new StoppedPlace("P1", "C1", 4.5), new StoppedPlace(null, "C1", 8)], stops.Select(s => s.Place));
        // An airing answers the stop before it alone, and on its own device.
        Assert.Equal([null, Start.AddMinutes(3), null], stops.Select(s => s.Aired));
        Assert.Equal([true, true, false], stops.Select(s => s.WentOn));
    }

    [Theory]
    [InlineData("2026-05-30", "2026-05-30")]
    [InlineData("30.5.2026", null)]
    [InlineData(null, null)]
    public void Replay_PanelNotedLater_WasLiftedOnItsDay(string? day, string? liftedOn)
    {
        var look = Assert.Single(Replay(Event(1, JournalKinds.Panel, new JsonObject { ["panel"] = "C1/2", ["leak"] = true, ["day"] = day })).Panels);
        Assert.Equal(liftedOn ?? $"{Start:yyyy-MM-dd}", $"{look.LiftedOn:yyyy-MM-dd}");
    }

    [Fact]
    public void Replay_WalkIn_SomebodyIsInsideUntilOut()
    {
        JournalEvent In(int number, string fixture, bool inside) => Event(number, JournalKinds.CheckIn, new JsonObject { ["fixture"] = fixture, ["in"] = inside });
        Assert.Equal([("W1", Start.AddMinutes(1)), ("W2", Start.AddMinutes(2))], Replay(In(1, "W1", true), In(2, "W2", true)).Inside.Select(i => (i.Fixture, i.Since)).ToArray());
        Assert.Equal([("W2", Start.AddMinutes(2))], Replay(In(1, "W1", true), In(2, "W2", true), In(3, "W1", false)).Inside.Select(i => (i.Fixture, i.Since)).ToArray());
    }

    [Fact]
    public void InsideBy_TwoTechnicians_IsOfEachTheirOwn()
    {
        JournalEvent In(int number, string device, string fixture, bool inside) =>
            Event(number, JournalKinds.CheckIn, new JsonObject { ["fixture"] = fixture, ["in"] = inside }) with { Device = device };
        var state = Replay(In(1, "d1", "W1", true), In(2, "d2", "W2", true), In(3, "d2", "W3", true), In(4, "d2", "W2", false));
        Assert.Equal(["W1"], state.InsideBy("d1"));
        Assert.Equal(["W3"], state.InsideBy("d2"));
        Assert.Empty(state.InsideBy("d3"));
    }

    [Fact]
    public void Replay_CloseInWithASpot_AsksForOnePointThere()
    {
        var body = new JsonObject { ["fixture"] = "C1", ["at"] = 12.5, ["spot"] = "kick-plate" };
        Assert.Equal([new CloseInPlace("C1", 12.5, Spot.KickPlate)], Replay(Event(1, JournalKinds.CloseIn, body)).CloseIns);
    }

    [Fact]
    public void Replay_EndedWithSomethingOff_IsNotClosedAndSaysSo()
    {
        var off = Event(1, JournalKinds.LeftOff, new JsonObject { ["what"] = "fans-off", ["fixture"] = "C1" });
        var close = Event(3, JournalKinds.Close, []);
        var state = Replay(off, close);
        Assert.False(state.Closed);
        Assert.Single(state.Conflicts);
        Assert.Equal("fans-off", Assert.Single(state.Open).What);
        Assert.True(Replay(off, Event(2, JournalKinds.Restored, new JsonObject { ["item"] = "e1" }), close).Closed);
        var handed = Replay(off, Event(2, JournalKinds.HandedOver, new JsonObject { ["item"] = "e1", ["to"] = "night manager" }), close);
        Assert.True(handed.Closed);
        Assert.Equal("night manager", handed.LeftOff[0].HandedTo);
    }

    [Fact]
    public void Replay_OneIdWithTwoContents_UsesOneAndSaysSo()
    {
        var a = Event(1, JournalKinds.Reading, Reading(4, "7"));
        var b = a with { Body = Reading(4, "70") };
        foreach (var state in new[] { Replay(a, b), Replay(b, a) })
        {
            Assert.Single(state.Conflicts);
            Assert.Equal("7", (string)state.File["readings"]![0]!["ppm"]!);
        }
    }

    [Fact]
    public void Replay_KindOfALaterVersion_IsPassedOver() =>
        Assert.Empty(Replay(Event(1, "some-later-kind", new JsonObject { ["x"] = 1 })).Conflicts);

    [Fact]
    public void Read_ReadingOnAFixtureThatIsNotThere_LeavesOutThatOneAlone()
    {
        var bad = Event(2, JournalKinds.Reading, new JsonObject { ["fixture"] = "GONE", ["at"] = 1, ["ppm"] = "3" });
        var result = JournalReplay.Read(Replay(Event(1, JournalKinds.Reading, Reading(4, "7")), bad), TestStore.Plan, []);
        Assert.Single(result.Survey.Readings);
        Assert.Contains(result.Warnings, w => w.Rule == "reading-fixture");
    }

    [Fact]
    public void Replay_AnyOrderAnyRepeats_ComesToTheSame()
    {
        JournalEvent[] events =
        [
            Event(0, JournalKinds.Start, new JsonObject { ["technician"] = "Ann" }),
            .. Enumerable.Range(1, 12).Select(i => Event(i, JournalKinds.Reading, Reading(i, i.ToString(System.Globalization.CultureInfo.InvariantCulture), $"P{i % 5}"))),
            Event(13, JournalKinds.Withdraw, new JsonObject { ["of"] = "e4" }),
            Event(14, JournalKinds.LeftOff, new JsonObject { ["what"] = "valve-shut" }),
            Event(15, JournalKinds.Restored, new JsonObject { ["item"] = "e14" }),
            Event(16, JournalKinds.Close, []),
        ];
        var expected = Sum(Replay(events));
        Gen.Shuffle(events).Select(Gen.Int[0, events.Length - 1].Array[0, 20]).Sample(
            (shuffled, repeats) => Assert.Equal(expected, Sum(Replay([.. shuffled, .. repeats.Select(i => events[i])]))), iter: 200, threads: 1);
    }

    [Theory]
    [InlineData("R-448A", 860, 110000)]
    [InlineData("R-290", 1000, 5275)]
    [InlineData("R-454C", 615, 19000)]
    [InlineData("CO2", 5000, 30000)]
    [InlineData("R-717", 25, 320)]
    [InlineData("unheard of", 500, 4000)]
    public void StopWork_SetPoints_AreExposureLimitAndQuarterFlammableOrConcentrationLimit(string gas, double leave, double outAt)
    {
        // ASHRAE 34 and ISO 817 values as published; a quarter of 21,100 ppm for propane.
        var stop = StopWork.For(gas);
        Assert.Equal((leave, outAt), (stop.LeavePpm, stop.OutPpm));
        Assert.Equal([StopLevel.None, StopLevel.Leave, StopLevel.Out], new[] { leave - 1, leave, outAt }.Select(stop.Judge));
    }

    /// <summary>A monitor that ends at 500 ppm can't show any of these limits but ammonia's and R-1234yf's: what it can't show it may be over.</summary>
    [Theory]
    [InlineData("R-448A", StopLevel.Leave)]
    [InlineData("R-744", StopLevel.Leave)]
    [InlineData("R-290", StopLevel.Out)]
    [InlineData("R-454C", StopLevel.Out)]
    [InlineData("unheard of", StopLevel.Out)]
    public void StopWork_OverARangeThatEndsBelowTheLimit_StopsWork(string gas, StopLevel level)
    {
        var stop = StopWork.For(gas);
        Assert.Equal(StopLevel.None, stop.Judge(499, false));
        Assert.Equal(level, stop.Judge(500, true));
    }

    [Fact]
    public void Replay_OfAStopOverTheRange_SaysSo()
    {
        var stops = Replay(
            Event(1, JournalKinds.StopWork, new JsonObject { ["gas"] = "R-448A", ["ppm"] = 500.0, ["level"] = "leave", ["over"] = true }),
            Event(2, JournalKinds.StopWork, new JsonObject { ["gas"] = "R-448A", ["ppm"] = 900.0, ["level"] = "leave" })).Stops;
        Assert.Equal([true, false], stops.Select(s => s.IsOverRange));
    }

    /// <summary>Two people in one walk-in: one comes out, the other's clock runs on, until somebody says that they are out too.</summary>
    [Fact]
    public void Inside_OfTwoInOneWalkIn_EndsOnlyTheClockOfWhoCameOut()
    {
        JournalEvent Check(int number, string device, bool into, string? who = null) =>
            Event(number, JournalKinds.CheckIn, new JsonObject { ["fixture"] = "W1", ["in"] = into, ["who"] = who }) with { Device = device };
        var (ada, ben) = (Check(1, "d1", true), Check(2, "d2", true));
        Assert.Equal(["d1", "d2"], Inside(ada, ben).Select(i => i.Device));
        Assert.Equal([("d2", ben.Time)], Inside(ada, ben, Check(3, "d1", false)).Select(i => (i.Device, i.Since)).ToArray());
        Assert.Equal(["d1"], Inside(ada, ben, Check(3, "d1", false, "d2")).Select(i => i.Device));
        // Who was not in there can only mean those who were.
        Assert.Empty(Inside(ada, ben, Check(3, "d3", false)));
        IReadOnlyList<InsideWalkIn> Inside(params JournalEvent[] events) => Replay(events).Inside;
    }

    /// <summary>The rule of carry-over, told while one reads: back at clean air is the lowest tenth and the action level of 2 ppm above it.</summary>
    [Theory]
    [InlineData("0 1 40", null)]
    [InlineData("0 1 >500", 2.0)]
    [InlineData("0 1 500 40 12", 2.0)]
    [InlineData("0 1 >500 40 2", null)]
    [InlineData("0 1 >500 40 <1 12", null)]
    [InlineData("6 7 >500 9", 8.0)]
    [InlineData(">500", 2.0)]
    [InlineData(">500 40", 2.0)]
    public void Clearing_AfterAnOverRangeReading_StandsUntilCleanAir(string shown, double? clear)
    {
        var state = Replay([.. shown.Split(' ').Select((ppm, i) => Event(i, JournalKinds.Reading, new JsonObject { ["ppm"] = ppm }))]);
        Assert.Equal(clear, JournalClearing.Of(state, "d1", "R-448A", new Instrument { Id = "monitor", RangePpm = 500 }));
        Assert.Null(JournalClearing.Of(state, "d2", "R-448A", new Instrument { Id = "monitor", RangePpm = 500 }));
        Assert.Null(JournalClearing.Of(state, "d1", "CO2", new Instrument { Id = "monitor", RangePpm = 500 }));
    }

    /// <summary>The monitor's range was given wrong at first.</summary>
    [Fact]
    public void Replay_OfAMonitorGivenAnew_TakesItsLastRange()
    {
        JsonObject Monitor(double range) => new() { ["technician"] = "P. Thistlewood", ["instrument"] = new JsonObject { ["id"] = "monitor", ["range"] = range } };
        var file = Replay(Event(1, JournalKinds.Start, Monitor(1000)), Event(2, JournalKinds.Start, Monitor(500))).File;
        Assert.Equal(500, (double)Assert.Single(file["instruments"]!.AsArray())!["range"]!);
    }

    [Theory]
    [InlineData("C1", "R-448A", 860, 110000)]
    [InlineData("C3", "R-744", 5000, 30000)]
    [InlineData(null, "R-448A or R-744", 860, 30000)]
    public void StopWork_WhereTheGasIsNotKnown_HasTheLowestSetPointsOfTheStoresRefrigerants(string? fixture, string gas, double leave, double outAt)
    {
        // Each from ASHRAE 34 and ISO 817 as above: on the sales floor it may be either gas.
        var stop = StopWork.At(TestStore.Plan, fixture);
        Assert.Equal((gas, leave, outAt), (stop.Gas, stop.LeavePpm, stop.OutPpm));
    }

    private static string Sum(JournalState state) => string.Join(
        '\n', state.File.ToJsonString(), string.Join(',', state.Events.Select(e => e.Id)), string.Join(',', state.Read), string.Join(',', state.LeftOff), state.Closed);

    private static JournalState Replay(params JournalEvent[] events) => JournalReplay.Replay(TestStore.Plan.Id, LengthUnit.Foot, Start, events);

    private static JournalEvent Event(int number, string kind, JsonObject body) => new()
    {
        Id = "e" + number, Survey = "s1", Device = "d1", Number = number, Time = Start.AddMinutes(number), Kind = kind, Body = body,
    };

    private static JsonObject Reading(double at, string ppm, string? point = null) => new() { ["fixture"] = "C1", ["at"] = at, ["ppm"] = ppm, ["point"] = point };
}
