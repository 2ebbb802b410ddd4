using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Tests.Zones.Forward;
using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>Whole answers on small stores made by hand. Expectations are common practice: gas points at its fixture, a place named by
/// its panel, a clean case is no leak seen, a raised room is no leak.</summary>
public class LeakLocatorTests
{
    private const double Foot = LengthUnits.MetresPerFoot;

    [Fact]
    public void Locate_CleanStore_IsNoLeakSeenEverywhere()
    {
        for (var seed = 1; seed <= 5; seed++)
        {
            var random = new Random(seed);
            var store = ForwardStore.Make(random, 2);
            var visit = new ForwardVisit(random, store, [null, null]);
            visit.Coarse();
            var result = Locating.Locate(store.Plan, visit.Survey, []);
            Assert.Empty(result.Zones);
            Assert.Empty(result.Elsewhere);
            Assert.Equal(store.Plan.Fixtures.Select(f => f.Id), result.NoLeakSeen.Select(n => n.Fixture));
            Assert.All(result.NoLeakSeen, n => Assert.InRange(n.Probability, 0.9, 1));
            Assert.All(result.NoLeakSeen, n => Assert.True(n.SmallestSeenPpm >= 1 && n.LowKilogramsPerYear < n.HighKilogramsPerYear));
            Assert.Null(result.Next);
        }
    }

    [Fact]
    public void Locate_PeakOnOneFixture_FindsItsPanel()
    {
        var result = Locating.Locate(Case(LengthUnit.Foot), Along((4, 0), (8, 3), (12, 14), (16, 6), (20, 1), (24, 0)), []);
        var zone = Assert.Single(result.Zones);
        Assert.Equal("C1", zone.Fixture);
        Assert.InRange(zone.Probability, 0.8, 1);
        Assert.InRange(zone.Center!.Value, 11 * Foot, 14.5 * Foot);
        Assert.Contains(result.Open[0], new[] { "C1/3", "C1/4" });
        Assert.InRange(zone.Panels.Sum(p => p.Probability), 0.98, 1.0001);
        Assert.Contains("12 ft from the left end", zone.Reason, StringComparison.Ordinal);
        Assert.NotEmpty(zone.Profile);
        Assert.NotNull(result.Next);
    }

    [Fact]
    public void Locate_OverRangeReading_IsAtLeastThatMuch()
    {
        var survey = Along((4, 20), (8, 300), (12, 1000), (16, 400), (20, 30));
        survey = survey with { Readings = [.. survey.Readings.Select(r => r.NetPpm >= 1000 ? r with { Bound = ReadingBound.AtLeast } : r)] };
        var result = Locating.Locate(Case(LengthUnit.Foot), survey, []);
        var zone = Assert.Single(result.Zones);
        Assert.InRange(zone.Center!.Value, 11 * Foot, 13.5 * Foot);
        Assert.Contains("over range", zone.Reason, StringComparison.Ordinal);
        Assert.Equal("large", zone.Strength);
    }

    /// <summary>More gas is no less of a leak: a reading past the monitor's range, with what followed it held for carry-over, against the
    /// same places read at 950 ppm.</summary>
    [Fact]
    public void Locate_OverRangeBesideAHit_IsNoLessALeakThanTheSameReadInRange()
    {
        (double, double)[] readings = [(4, 0), (10.8, 14.5), (18, 950), (22.8, 12), (30, 0)];
        var inRange = Locating.Locate(Case(LengthUnit.Foot), Along(readings), []);
        var survey = Along([.. readings.Select(r => r.Item2 > 900 ? (r.Item1, 1000) : r)]);
        survey = survey with
        {
            Readings = [.. survey.Readings.Select(r => r.NetPpm >= 1000 ? r with { Bound = ReadingBound.AtLeast }
                : r.NetPpm == 12 ? r with { Bound = ReadingBound.Below, CarryOver = true } : r)],
        };
        var over = Locating.Locate(Case(LengthUnit.Foot), survey, []);
        Assert.True(inRange.Zones.Sum(z => z.Probability) > 0.85);
        Assert.True(over.Zones.Sum(z => z.Probability) > 0.85);
        Assert.True(over.Zones[0].PeakOverRange);
        Assert.Equal(1000, over.Zones[0].PeakPpm);
        Assert.False(inRange.Zones[0].PeakOverRange);
    }

    [Fact]
    public void Locate_MirroredStore_GivesTheMirroredAnswer()
    {
        (double, double)[] readings = [(4, 0), (8, 3), (12, 14), (16, 6), (20, 1), (24, 0), (30, 0)];
        var straight = Locating.Locate(Case(LengthUnit.Foot), Along(readings), []).Zones[0];
        var mirrored = Locating.Locate(Case(LengthUnit.Foot, mirrored: true), Along([.. readings.Select(r => (36 - r.Item1, r.Item2))]), []).Zones[0];
        // The likelihood's filter runs one way along the axis, and its heavy tails make it depend on the way a little.
        Assert.Equal(straight.Center!.Value, (36 * Foot) - mirrored.Center!.Value, 0.05);
        Assert.Equal(straight.From!.Value, (36 * Foot) - mirrored.To!.Value, 0.05);
        Assert.Equal(straight.Probability, mirrored.Probability, 0.01);
    }

    [Fact]
    public void Locate_FeetOrMetres_SameAnswerButForTheWords()
    {
        var readings = Along((4, 0), (8, 3), (12, 14), (16, 6), (20, 1));
        var feet = Locating.Locate(Case(LengthUnit.Foot), readings, []);
        var metres = Locating.Locate(Case(LengthUnit.Metre), readings, []);
        Assert.Equal(feet.Zones[0].Center, metres.Zones[0].Center);
        Assert.Equal(feet.Zones[0].Probability, metres.Zones[0].Probability);
        Assert.Contains("3.7 m from the left end", metres.Zones[0].Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Locate_FrontDrawnTheOtherWay_SamePlaceOnThePlan()
    {
        (double, double)[] readings = [(4, 0), (8, 3), (12, 14), (16, 6), (20, 1), (24, 0)];
        var forward = Locating.Locate(Case(LengthUnit.Foot), Along(readings), []).Zones[0];
        var backward = Locating.Locate(Case(LengthUnit.Foot, backward: true), Along([.. readings.Select(r => (36 - r.Item1, r.Item2))], 36), []).Zones[0];
        Assert.Equal(forward.At.X, backward.At.X, 0.3);
        Assert.Equal(forward.Center!.Value, (36 * Foot) - backward.Center!.Value, 0.05);
    }

    [Fact]
    public void Locate_HistoryOnOneSide_PullsAnEvenZoneThere()
    {
        var readings = Along((4, 0), (8, 2), (12, 8), (16, 8), (20, 2), (24, 0));
        var plain = Locating.Locate(Case(LengthUnit.Foot), readings, []).Zones[0];
        var told = Locating.Locate(Case(LengthUnit.Foot), readings, [new LeakPrior("C1", 16 * Foot, 6, "leaked here in May")]).Zones[0];
        Assert.True(told.Center > plain.Center);
        Assert.Contains("leaked here in May", told.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Locate_PanelLiftedWithNothingFound_SinksInTheOrder()
    {
        var readings = Along((4, 0), (8, 3), (12, 14), (16, 6), (20, 1), (24, 0));
        var first = Locating.Locate(Case(LengthUnit.Foot), readings, []).Open[0];
        var settings = new LocateSettings { Checked = [new PanelCheck(first, false)] };
        Assert.NotEqual(first, Locating.Locate(Case(LengthUnit.Foot), readings, [], settings).Open[0]);
    }

    [Fact]
    public void Locate_SameInputTwice_SameAnswer()
    {
        var readings = Along((4, 0), (8, 3), (12, 14), (16, 6), (20, 1), (24, 0));
        var one = Locating.Locate(Case(LengthUnit.Foot), readings, []);
        var two = Locating.Locate(Case(LengthUnit.Foot), readings, []);
        Assert.Equal(System.Text.Json.JsonSerializer.Serialize(one), System.Text.Json.JsonSerializer.Serialize(two));
    }

    [Fact]
    public void Locate_WalkInHighAtOneCoil_NamesTheWalkInWithARadius()
    {
        var random = new Random(3);
        var store = ForwardStore.Make(random, 1);
        var walkIn = store.Plan.Fixtures.First(f => f.Kind == FixtureKind.WalkIn);
        NetReading[] readings =
        [
            .. new[] { (walkIn.Coils[0], 30.0), (walkIn.Coils[0], 26), (walkIn.Coils[1], 9), (walkIn.Coils[1], 7), (walkIn.Opening!.Value.Middle, 5) }
                .Select((r, i) => Reading(i, r.Item2, new ReadingPlace { Fixture = walkIn.Id, Room = walkIn.Id, At = r.Item1 })),
        ];
        var result = Locating.Locate(store.Plan, Net(readings), []);
        var zone = Assert.Single(result.Zones);
        Assert.Equal(walkIn.Id, zone.Fixture);
        Assert.Null(zone.From);
        Assert.Empty(zone.Panels);
        Assert.True(zone.At.DistanceTo(walkIn.Coils[0]) < zone.At.DistanceTo(walkIn.Coils[1]));
        Assert.InRange(zone.Radius!.Value, 0.2, 4);
    }

    [Fact]
    public void Locate_WalkInWithRaisedAir_IsNoZone()
    {
        var random = new Random(3);
        var store = ForwardStore.Make(random, 1);
        var walkIn = store.Plan.Fixtures.First(f => f.Kind == FixtureKind.WalkIn);
        var survey = Net([.. Enumerable.Range(0, 4).Select(i => Reading(i, 1.5, new ReadingPlace { Fixture = walkIn.Id, Room = walkIn.Id, At = walkIn.Coils[i % 2] }))]);
        survey = survey with { Rooms = [new RoomBackground(walkIn.Id, "Bakery freezer", 6, 1, 4, true, "the same everywhere")] };
        var result = Locating.Locate(store.Plan, survey, []);
        Assert.Empty(result.Zones);
        Assert.Contains(result.NoLeakSeen, n => n.Fixture == walkIn.Id);
    }

    [Fact]
    public void Locate_MonitorOfHitsOnly_FindsTheCaseAndKnowsNoStrength()
    {
        (double, double)[] low = [(4, 0), (8, 3), (12, 5), (16, 3), (20, 0), (24, 0)];
        (double, double)[] high = [(4, 0), (8, 300), (12, 500), (16, 300), (20, 0), (24, 0)];
        var zone = Assert.Single(Locating.Locate(Case(LengthUnit.Foot), Hits(low), []).Zones);
        var again = Assert.Single(Locating.Locate(Case(LengthUnit.Foot), Hits(high), []).Zones);
        Assert.InRange(zone.Center!.Value, 8 * Foot, 16 * Foot);
        Assert.Equal(zone.Center, again.Center);
        Assert.Equal(HitOnlyZones.Unknown, zone.Strength);
        Assert.Equal((0, 0), (zone.StrengthLowKilogramsPerYear, zone.StrengthHighKilogramsPerYear));
        Assert.Contains("hit from no hit", zone.Reason, StringComparison.Ordinal);

        static NetSurvey Hits((double, double)[] readings)
        {
            var survey = Along(readings);
            return survey with { Readings = [.. survey.Readings.Select(r => r with { HitOnly = true })] };
        }
    }

    [Fact]
    public void Locate_SmallCharge_LowersTheStrengthOnly()
    {
        var readings = Along((4, 10), (8, 60), (12, 200), (16, 90), (20, 15), (24, 5));
        var plan = Case(LengthUnit.Foot);
        var circuit = plan.Fixtures[0] with { Sections = [.. plan.Fixtures[0].Sections.Select(s => s with { Circuit = "A1" })] };
        var charged = plan with
        {
            Fixtures = [circuit], Circuits = [new Circuit("A1", "A", [], null)],
            Systems = [new RefrigerationSystem("A", SystemType.Direct, "R-448A", 60)],
        };
        var free = Locating.Locate(plan, readings, []).Zones[0];
        var bound = Locating.Locate(charged, readings, []).Zones[0];
        Assert.Equal(free.Center!.Value, bound.Center!.Value, 1e-9);
        Assert.True(bound.StrengthHighKilogramsPerYear < 0.8 * free.StrengthHighKilogramsPerYear);
    }

    [Fact]
    public void Locate_CleanPeakAndAnOverRangeNeighbour_CallsNeitherNoLeakSeenAndKeepsBothInQuestion()
    {
        var across = Neighbour("C3", 3.6);
        var plan = Case(LengthUnit.Foot) with { Fixtures = [Case(LengthUnit.Foot).Fixtures[0], across] };
        var survey = Along((2, 0), (6, 3), (10, 14), (14, 22), (18, 8), (22, 1), (27, 0));
        var over = Reading(20, 1000, new ReadingPlace { Fixture = "C3", Along = 12 * Foot, At = across.Front!.PointAt(12 * Foot) }) with { Bound = ReadingBound.AtLeast };
        survey = survey with { Readings = [.. survey.Readings, over] };
        var result = Locating.Locate(plan, survey, []);
        Assert.Empty(result.NoLeakSeen);
        Assert.Contains(result.Zones, z => z.Fixture == "C1" && z.Probability > 0.4);
        Assert.Contains(result.Zones, z => z.Fixture == "C3" && z.Probability > 0.9);
    }

    /// <summary>A weak leak across the aisle explains no gas over the monitor's range, however steep and lonely that is.</summary>
    [Fact]
    public void Locate_LoneOverRangeReading_IsNeverNoLeakSeenNorExplainedByAWeakerLeak()
    {
        var across = Neighbour("C3", 3.6);
        var plan = Case(LengthUnit.Foot) with { Fixtures = [Case(LengthUnit.Foot).Fixtures[0], across] };
        var survey = Along((2, 0), (6, 3), (10, 14), (14, 22), (18, 8), (22, 1), (27, 0));
        NetReading Across(double feet, double ppm) =>
            Reading(20, ppm, new ReadingPlace { Fixture = "C3", Along = feet * Foot, At = across.Front!.PointAt(feet * Foot) });
        survey = survey with
        {
            Readings = [.. survey.Readings, Across(2, 0), Across(6, 0), Across(10, 30), Across(14, 1000) with { Bound = ReadingBound.AtLeast }, Across(18, 20), Across(22, 0)],
        };
        var result = Locating.Locate(plan, survey, []);
        Assert.DoesNotContain(result.NoLeakSeen, n => n.Fixture == "C3");
        Assert.DoesNotContain(result.Zones, z => z.Fixture == "C1" && z.Reason.Contains("explains the 1000", StringComparison.Ordinal));
        Assert.True(result.Zones.Any(z => z.Fixture == "C3") || result.Elsewhere.Any(e => e.Near == "C3"));
    }

    [Fact]
    public void Locate_PipeDrawnBehindTheCase_DoesNotTakeTheLeakOutOfIt()
    {
        var pipe = new Pipe("PL1", new PlanLine([new(-1, 1.2), new(13, 1.2)]), "ceiling", null);
        foreach (var at in new[] { 8.0, 14, 20, 27 })
        {
            // A trace of reach 4 ft, as common practice has it, probed at the coarse step.
            var readings = Along([.. Enumerable.Range(0, 8).Select(i => (2.25 + (4.5 * i), Math.Round(18 * Math.Exp(-Math.Abs(2.25 + (4.5 * i) - at) / 4))))]);
            var result = Locating.Locate(Case(LengthUnit.Foot) with { Pipes = [pipe] }, readings, []);
            Assert.True(result.Zones.Sum(z => z.Probability) > 0.6, $"{at}");
            Assert.True(result.Elsewhere.Sum(e => e.Probability) < 0.4, $"{at}");
        }
    }

    private static Fixture Neighbour(string id, double behind)
    {
        var length = 36 * Foot;
        return Case(LengthUnit.Foot).Fixtures[0] with
        {
            Id = id, Tag = id, Outline = [new(0, -behind - 1), new(length, -behind - 1), new(length, -behind), new(0, -behind)],
            Front = new PlanLine([new(length, -behind), new(0, -behind)]),
            Panels = [.. Enumerable.Range(0, 9).Select(i => new Panel($"{id}/{i + 1}", PanelKind.DeckPan, i * 4 * Foot, (i + 1) * 4 * Foot, 5))],
        };
    }

    // A 36 ft case of three 12 ft sections along x, its front below it.
    private static Plan Case(LengthUnit unit, bool mirrored = false, bool backward = false)
    {
        var length = 36 * Foot;
        PlanPoint[] front = [new(0, 0), new(length, 0)];
        if (backward) Array.Reverse(front);
        var fixture = new Fixture
        {
            Id = "C1", Tag = "27A", Kind = FixtureKind.OpenCase, Outline = [new(0, 0), new(length, 0), new(length, 1), new(0, 1)],
            Front = new PlanLine(front), FrontStartsLeft = !backward, ValveEnd = mirrored ? CaseEnd.Right : CaseEnd.Left,
            Sections = [.. Enumerable.Range(0, 3).Select(i => new Section(i + 1, i * 12 * Foot, (i + 1) * 12 * Foot, 1, null))],
            Panels = [.. Enumerable.Range(0, 9).Select(i => new Panel($"C1/{i + 1}", PanelKind.DeckPan, i * 4 * Foot, (i + 1) * 4 * Foot, 5))],
        };
        return new Plan { Id = "p", Name = "p", Units = unit, Outline = [new(-5, -5), new(20, -5), new(20, 5), new(-5, 5)], Fixtures = [fixture] };
    }

    private static NetSurvey Along(params (double Feet, double Ppm)[] readings) => Along(readings, null);

    // Readings at feet along the front; with a front drawn backward the plan point is at the given length less that.
    private static NetSurvey Along((double Feet, double Ppm)[] readings, double? turnedFeet) => Net(
        [.. readings.Select((r, i) => Reading(i, r.Ppm, new ReadingPlace
        {
            Fixture = "C1", Along = r.Feet * Foot, At = new PlanPoint((turnedFeet is { } f ? f - r.Feet : r.Feet) * Foot, 0),
        }))]);

    private static NetReading Reading(int index, double net, ReadingPlace place) => new()
    {
        Reading = new Reading
        {
            Time = new DateTimeOffset(2026, 3, 2, 6, index, 0, TimeSpan.Zero), Ppm = Math.Max(1, net),
            Bound = net < 1 ? ReadingBound.Below : ReadingBound.Exact, Place = place,
        },
        BackgroundPpm = 0, NetPpm = Math.Max(1, net), DeviationPpm = 0.5, Bound = net < 1 ? ReadingBound.Below : ReadingBound.Exact,
        DetectionPpm = 1, ActionPpm = 2,
    };

    private static NetSurvey Net(NetReading[] readings) => new(
        new Survey { Store = "p", Start = readings[0].Reading.Time, Instruments = [new Instrument { Id = "M1" }], Readings = [.. readings.Select(r => r.Reading)] },
        readings, [], []);
}
