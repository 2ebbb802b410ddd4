using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Tests.Zones.Forward;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>Whole answers on small stores made by hand. Expectations are common practice: gas points at its fixture, a place named by
/// its panel, a clean case is no leak seen, a raised room is no leak.</summary>
public class LeakLocatorTests
{
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
        Assert.Equal([(AirState.FansOn, false)], zone.Profiles.Select(p => (p.Air, p.Base)));
        Assert.NotNull(result.Next);
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
}
