using StoreMap.Plans;
using StoreMap.Routing;
using static StoreMap.Tests.Routing.StoreScene;

namespace StoreMap.Tests.Routing;

/// <summary>What holds for the whole store: zero and backgrounds, sprayed rooms, systems, ids, and the points around a hit.</summary>
public partial class ProbePlannerTests
{
    [Fact]
    public void Draft_ZeroInCleanAir_ComesFirst()
    {
        var draft = ProbePlanner.Draft(Store(Case("C1", FixtureKind.OpenCase, 20, 50, 12)), Usual);
        Assert.Equal(("zero-E1", ProbePass.Zero), (draft.Points[0].Id, draft.Points[0].Pass));
        Assert.Equal(Feet(100, 0), draft.Points[0].Stand);
        Assert.Equal(GroupTurn.First, Assert.Single(draft.Groups, g => g.Points.Contains("zero-E1")).Turn);
    }

    [Fact]
    public void Draft_EveryDepartmentAndRoom_HasABackground()
    {
        var plan = Store(
            Case("C1", FixtureKind.OpenCase, 20, 50, 12, "L1"), Case("C2", FixtureKind.OpenCase, 120, 50, 12, "L2"),
            Case("C3", FixtureKind.OpenCase, 130, 40, 12, "L3"), WalkIn("W1", 160, 80, 12, 14)) with
        {
            Rooms = [Room("R1", RoomKind.Bakery, Box(150, 70, 200, 100), aerosol: true), Room("R2", RoomKind.Office, Box(0, 80, 20, 100))],
        };
        var draft = ProbePlanner.Draft(plan, Usual);

        // C3 stands within 6 m of the background before C2 and shares it; the walk-in's door opens into the bakery.
        Assert.Equal(
            ["B-L1: L1", "B-L2: L2 L3", "B-R1: W1", "B-R2: "],
            draft.Departments.OrderBy(d => d.Background, StringComparer.Ordinal).Select(d => $"{d.Background}: {string.Join(' ', d.Groups)}"));
        Assert.All(draft.Points.Where(p => p.Pass == ProbePass.Background), p => Assert.Equal(30, p.DwellSeconds));
    }

    [Fact]
    public void Draft_AerosolRoom_IsFlaggedAndWalkedLast()
    {
        var plan = Store(WalkIn("W1", 160, 80, 12, 14)) with { Rooms = [Room("R1", RoomKind.Bakery, Box(150, 70, 200, 100), aerosol: true)] };
        var draft = ProbePlanner.Draft(plan, Usual);
        Assert.Contains("Sprays", draft.Points.Single(p => p.Id == "B-R1").Note, StringComparison.Ordinal);
        Assert.All(draft.Groups.Where(g => g.Id is "B-R1" or "W1"), g => Assert.Equal(GroupTurn.Last, g.Turn));
        var before = ProbePlanner.Draft(plan, Usual with { AerosolRoomsLast = false });
        Assert.DoesNotContain(before.Groups, g => g.Turn == GroupTurn.Last);
    }

    [Fact]
    public void Draft_SecondaryLoop_GetsNoPointsAndTheReason()
    {
        var fixture = Case("C1", FixtureKind.OpenCase, 20, 50, 12) with { Sections = [new(1, 0, 12 * Foot, 1, "S1")] };
        var draft = ProbePlanner.Draft(Store(fixture), Usual);
        Assert.DoesNotContain(draft.Points, p => p.Fixture == "C1");
        Assert.Contains("secondary loop", Assert.Single(draft.Notes, n => n.Element == "C1").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Draft_PartlyOnASecondaryLoop_ProbesTheRest()
    {
        var fixture = Case("C1", FixtureKind.OpenCase, 20, 50, 18) with { Sections = [new(1, 0, 9 * Foot, 1, "S1"), new(2, 9 * Foot, 18 * Foot, 1, "A1")] };
        var draft = ProbePlanner.Draft(Store(fixture), Usual);
        Assert.Equal(["C1-F03", "C1-F04"], draft.Points.Where(p => p.Pass == ProbePass.Front).Select(p => p.Id));
    }

    [Fact]
    public void Draft_PlugIn_GetsOnePointAtTheKickPlateAndTheReason()
    {
        var fixture = Case("C1", FixtureKind.SelfContained, 20, 50, 4) with { Refrigerant = "R-290" };
        var draft = ProbePlanner.Draft(Store(fixture), Usual);
        var point = Assert.Single(draft.Points, p => p.Fixture == "C1");
        Assert.Equal((Spot.KickPlate, ProbeHeight.Low), (point.Spot, point.Height));
        Assert.Contains("Flammable", point.Note, StringComparison.Ordinal);
        Assert.Contains(draft.Notes, n => n.Element == "C1" && n.Text.Contains("Plug-in", StringComparison.Ordinal));
    }

    [Fact]
    public void Draft_GasLighterThanAir_IsProbedHigh()
    {
        var fixture = Case("C1", FixtureKind.OpenCase, 20, 50, 12) with { Sections = [new(1, 0, 12 * Foot, 1, "N1")] };
        Assert.All(Points(Store(fixture), ProbePass.Front), p => Assert.Equal(ProbeHeight.High, p.Height));
    }

    [Fact]
    public void Draft_Equipment_GetsAChecklistStop()
    {
        var plan = Store() with { Equipment = [new("Q1", EquipmentKind.Rack, Feet(10, 90), "floor", "A"), new("Q2", EquipmentKind.Condenser, Feet(10, 50), "roof", "A")] };
        var draft = ProbePlanner.Draft(plan, Usual);
        var stops = draft.Points.Where(p => p.Pass == ProbePass.Checklist).ToList();
        Assert.Equal(["Q1-K01", "Q2-K01"], stops.Select(p => p.Id));
        Assert.Contains("roof", stops[1].Note, StringComparison.Ordinal);
        Assert.Equal([0, Usual.LadderSeconds], stops.Select(p => Usual.HandlingSeconds(plan, p)));
        Assert.DoesNotContain(ProbePlanner.Draft(plan, Usual with { Checklist = false }).Points, p => p.Pass == ProbePass.Checklist);
    }

    [Fact]
    public void Draft_LineDrop_IsMarkedAtTheNearestPoint()
    {
        var plan = Store(Case("C1", FixtureKind.OpenCase, 20, 50, 12)) with { Drops = [new("D1", Feet(31, 52), ["C1"])] };
        Assert.Contains("D1", Points(plan, ProbePass.Front)[2].Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Draft_Dwell_IsNeverShorterThanTheMonitorsDelay()
    {
        var slow = Usual with { MonitorDelaySeconds = 25, DwellSeconds = 8 };
        var draft = ProbePlanner.Draft(Store(Case("C1", FixtureKind.OpenCase, 20, 50, 12), WalkIn("W1", 40, 60, 12, 14)), slow);
        Assert.All(draft.Points, p => Assert.True(p.DwellSeconds >= 25));
    }

    [Fact]
    public void Draft_LongAndLookalikeIds_StayUniqueAndValid()
    {
        var name = new string('x', 32);
        var plan = Store(Case(name, FixtureKind.OpenCase, 20, 50, 12), Case(name[..31] + "y", FixtureKind.OpenCase, 60, 50, 12), Case("B", FixtureKind.OpenCase, 100, 50, 12, "a line-up / with a long name, 1")) with
        {
            Rooms = [Room("F01", RoomKind.Other, Box(0, 80, 20, 100))],
        };
        var ids = ProbePlanner.Draft(plan, Usual).Points.Select(p => p.Id).ToList();
        Assert.Equal(ids.Count, ids.Distinct().Count());
        Assert.All(ids, id => Assert.Matches(IdPattern(), id));
    }

    [Fact]
    public void Draft_EveryPoint_IsInExactlyOneGroup()
    {
        var draft = ProbePlanner.Draft(
            Store(Case("C1", FixtureKind.OpenCase, 20, 50, 24, "L1"), Case("C8", FixtureKind.IslandCase, 60, 50, 12), WalkIn("W1", 40, 60, 12, 14)), Usual);
        Assert.Equal(draft.Points.Select(p => p.Id).Order(StringComparer.Ordinal), draft.Groups.SelectMany(g => g.Points).Order(StringComparer.Ordinal));
        Assert.Equal(draft.Groups.Count, draft.Groups.Select(g => g.Id).Distinct().Count());
    }

    [Fact]
    public void Draft_ImpossibleProtocol_IsRefusedWithEveryFault()
    {
        var refused = Assert.Throws<RefusedInputException>(() => ProbePlanner.Draft(Store(), Usual with { FrontStepMetres = 0, DwellSeconds = double.NaN }));
        Assert.Equal(["frontStep", "dwell"], refused.Problems.Select(p => p.Field));
    }

    [Fact]
    public void AtEntry_Department_IsReadBeforeItsFirstPoint()
    {
        var plan = Store(Case("C1", FixtureKind.OpenCase, 20, 50, 24, "L1"));
        Assert.Equal(0, Entered(plan, "C1-F06").DistanceTo(Feet(42, 44)), Exact);
    }

    [Fact]
    public void AtEntry_WallBeforeTheCase_IsReadOnThisSideOfIt()
    {
        // A room's wall 4 ft before the front, an obstacle 2.5 ft before it.
        var open = Store(Case("C1", FixtureKind.OpenCase, 20, 50, 24, "L1"));
        var wall = open with { Rooms = [Room("R1", RoomKind.Prep, Box(10, 20, 60, 46))] };
        Assert.Equal(0, Entered(wall, "C1-F06").DistanceTo(Feet(42, 47)), Exact);
        var shelf = open with { Obstacles = [new("G1", "shelving", Box(10, 45, 60, 47.5))] };
        Assert.Equal(0, Entered(shelf, "C1-F06").DistanceTo(Feet(42, 50) - new PlanPoint(0, 0.5)), Exact);
    }

    [Fact]
    public void Draft_PlugIns_ShareTheNearestDepartment()
    {
        var draft = ProbePlanner.Draft(
            Store(Case("C1", FixtureKind.SelfContained, 150, 10, 4), Case("C2", FixtureKind.OpenCase, 20, 50, 24, "L1"), Case("C3", FixtureKind.SelfContained, 20, 10, 4)), Usual);
        Assert.Equal("L1 C1 C3", string.Join(' ', Assert.Single(draft.Departments).Groups));
    }

    [Fact]
    public void CloseIn_AroundAHit_StepsTwoFeetToBothSides()
    {
        var plan = Store(Case("C1", FixtureKind.OpenCase, 20, 50, 24));
        var points = ProbePlanner.CloseIn(plan, plan.Fixtures[0], 10 * Foot, Usual);
        Assert.Equal(["C1-N4.0", "C1-N6.0", "C1-N8.0", "C1-N10.0", "C1-N12.0", "C1-N14.0", "C1-N16.0", "C1-U10.0"], points.Select(p => p.Id));
        Assert.Equal([4, 6, 8, 10, 12, 14, 16, 10], points.Select(p => Math.Round(p.Along!.Value / Foot, 9)));
        Assert.Contains("never stop fans on a fed coil", points[0].Note, StringComparison.Ordinal);
        Assert.Equal((Spot.Ceiling, ProbeHeight.High), (points[^1].Spot, points[^1].Height));
        Assert.Contains("nobody climbs on cases", points[^1].Note, StringComparison.Ordinal);
    }

    [Fact]
    public void CloseInAt_Spot_IsOnePointThere()
    {
        var plan = Store(Case("C1", FixtureKind.OpenCase, 20, 50, 24), WalkIn("W1", 40, 60, 12, 14));
        var pass = ProbePlanner.CloseIn(plan, plan.Fixtures[0], 10 * Foot, Usual);
        Assert.Equal(pass.Single(p => p.Id == "C1-N10.0") with { Note = null }, ProbePlanner.CloseInAt(plan, plan.Fixtures[0], 10 * Foot, Spot.Front, Usual));
        Assert.Equal(pass[^1], ProbePlanner.CloseInAt(plan, plan.Fixtures[0], 10 * Foot, Spot.Ceiling, Usual));
        var kick = ProbePlanner.CloseInAt(plan, plan.Fixtures[0], 30 * Foot, Spot.KickPlate, Usual);
        Assert.Equal(("C1-N24.0-kick-plate", Spot.KickPlate, ProbeHeight.Low, 24), (kick.Id, kick.Spot, kick.Height, Math.Round(kick.Along!.Value / Foot, 9)));
        Assert.Throws<ArgumentException>(() => ProbePlanner.CloseInAt(plan, plan.Fixtures[1], 0, Spot.Front, Usual));
    }

    [Fact]
    public void CloseIn_NearAnEnd_GoesOnIntoTheJoinedCase()
    {
        var plan = Store(Case("C1", FixtureKind.OpenCase, 20, 50, 12, "L1"), Case("C2", FixtureKind.OpenCase, 32.1, 50, 12, "L1"));
        var points = ProbePlanner.CloseIn(plan, plan.Fixtures[0], 10 * Foot, Usual);
        Assert.Equal(["C1-N4.0", "C1-N6.0", "C1-N8.0", "C1-N10.0", "C1-N12.0", "C2-N2.0", "C2-N4.0", "C1-U10.0"], points.Select(p => p.Id));
    }

    [Fact]
    public void CloseIn_WalkIn_GoesOverTheCoil()
    {
        var plan = Store(WalkIn("W1", 40, 60, 12, 14));
        var points = ProbePlanner.CloseIn(plan, plan.Fixtures[0], 0, Usual);
        Assert.Equal([Spot.CoilEnd, Spot.ValveEnd, Spot.Drain], points.Select(p => p.Spot));
    }
}
