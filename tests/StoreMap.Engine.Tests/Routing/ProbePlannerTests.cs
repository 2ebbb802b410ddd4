using System.Text.RegularExpressions;
using StoreMap.Plans;
using StoreMap.Routing;
using static StoreMap.Tests.Routing.StoreScene;

namespace StoreMap.Tests.Routing;

/// <summary>Source of every expected step, count and place: common practice of the trade (steps of 4.5 ft, close-in 2 ft, every third
/// door, islands twice, walk-ins low and high and at the coils, zero in clean air first), with plane geometry by hand.</summary>
public partial class ProbePlannerTests
{
    private const double Exact = 1e-9;
    private static readonly Protocol Usual = new();

    [Fact]
    public void Draft_OpenCase_IsProbedEveryFourAndAHalfFeetAtMost()
    {
        // 24 ft / 4.5 ft: six points, 4 ft apart, the first 2 ft from the end.
        var points = Points(Store(Case("C1", FixtureKind.OpenCase, 20, 50, 24)), ProbePass.Front);
        Assert.Equal(["C1-F01", "C1-F02", "C1-F03", "C1-F04", "C1-F05", "C1-F06"], points.Select(p => p.Id));
        Assert.Equal([2, 6, 10, 14, 18, 22], points.Select(p => Math.Round(p.Along!.Value / Foot, 9)));
        Assert.All(points, p => Assert.Equal(ProbeHeight.Low, p.Height));
    }

    [Fact]
    public void Draft_OpenCase_HasTheTipAtTheFrontAndTheFeetHalfAMetreBefore()
    {
        var point = Points(Store(Case("C1", FixtureKind.OpenCase, 20, 50, 24)), ProbePass.Front)[0];
        Assert.Equal(0, point.At.DistanceTo(Feet(22, 50)), Exact);
        Assert.Equal(0, point.Stand.DistanceTo(Feet(22, 50) + new PlanPoint(0, -0.5)), Exact);
    }

    [Theory]
    [InlineData(4.5, 1)]
    [InlineData(8, 2)]
    [InlineData(9, 2)]
    [InlineData(12, 3)]
    [InlineData(13.5, 3)]
    public void Draft_FrontOfAnyLength_LeavesNoGapOverTheStep(double feet, int count) =>
        Assert.Equal(count, Points(Store(Case("C1", FixtureKind.OpenCase, 20, 50, feet)), ProbePass.Front).Count);

    [Fact]
    public void Draft_DoorCase_ProbesEveryThirdDoorAndEverySection()
    {
        // Ten doors of 2.5 ft in two sections of five: doors 2, 5, 8 and the last run's 10.
        var fixture = Case("C6", FixtureKind.DoorCase, 20, 50, 25, null, 12.5, 12.5) with { Doors = 10 };
        var points = Points(Store(fixture), ProbePass.Doors);
        Assert.Equal(["C6-G02", "C6-G05", "C6-G08", "C6-G10"], points.Select(p => p.Id));
        Assert.Equal(1.5 * 2.5, points[0].Along!.Value / Foot, Exact);
        Assert.All(points, p => Assert.Equal((Spot.DoorGap, ProbeHeight.Low), (p.Spot, p.Height)));
        Assert.Contains("crack", points[0].Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Draft_SectionOfOneDoor_IsNotPassedOver()
    {
        var fixture = Case("C6", FixtureKind.DoorCase, 20, 50, 10, null, 2.5, 7.5) with { Doors = 4 };
        Assert.Equal(["C6-G01", "C6-G02", "C6-G04"], Points(Store(fixture), ProbePass.Doors).Select(p => p.Id));
    }

    [Fact]
    public void Draft_DoorsNotCounted_AreAssumedFromTheLengthAndSaid()
    {
        var draft = ProbePlanner.Draft(Store(Case("C6", FixtureKind.DoorCase, 20, 50, 10)), Usual);
        Assert.Equal(["C6-G02", "C6-G04"], draft.Points.Where(p => p.Pass == ProbePass.Doors).Select(p => p.Id));
        Assert.Contains(draft.Notes, n => n.Element == "C6" && n.Text.Contains("4 are assumed", StringComparison.Ordinal));
    }

    [Fact]
    public void Draft_ServiceCase_IsProbedFromTheStaffSide()
    {
        var points = Points(Store(Case("C7", FixtureKind.ServiceCase, 20, 50, 12)), ProbePass.Front);
        Assert.Equal(3, points.Count);
        Assert.All(points, p => Assert.Contains("staff side", p.Note, StringComparison.Ordinal));
        Assert.All(points, p => Assert.True(p.Stand.Y < p.At.Y));
    }

    [Fact]
    public void Draft_Island_IsProbedTwice()
    {
        var plan = Store(Case("C8", FixtureKind.IslandCase, 20, 50, 12)) with { Pits = [new("P1", PitKind.Pit, Box(20, 50, 32, 53), ["C8"])] };
        var draft = ProbePlanner.Draft(plan, Usual);
        var perimeter = draft.Points.Where(p => p.Pass == ProbePass.Perimeter).ToList();
        var zigzag = draft.Points.Where(p => p.Pass == ProbePass.Zigzag).ToList();

        // Round the base: three a side and one at each end, at the floor.
        Assert.Equal(8, perimeter.Count);
        Assert.Equal(3, perimeter.Count(p => p.OnBack));
        Assert.All(perimeter, p => Assert.Equal((ProbeHeight.Low, Spot.Perimeter), (p.Height, p.Spot)));
        Assert.All(perimeter, p => Assert.Contains("pit", p.Note, StringComparison.Ordinal));
        Assert.All(perimeter, p => Assert.False(Inside(p.Stand, 20, 50, 32, 53)));

        // Over the well: to and fro between the front and the discharge side.
        Assert.Equal([Spot.Front, Spot.Discharge, Spot.Front], zigzag.Select(p => p.Spot));
        Assert.Equal(["C8.perimeter", "C8.zigzag"], draft.Groups.Where(g => g.Fixtures.Contains("C8")).Select(g => g.Id));
    }

    [Fact]
    public void Draft_WideIsland_IsZigzaggedFromBothSides()
    {
        var narrow = Case("C8", FixtureKind.IslandCase, 20, 50, 12);
        var wide = narrow with { Outline = Box(20, 50, 32, 57), Back = new PlanLine([Feet(20, 57), Feet(32, 57)]) };
        var zigzag = Points(Store(wide), ProbePass.Zigzag);
        Assert.Equal(6, zigzag.Count);
        Assert.Equal(3, zigzag.Count(p => p.OnBack));
        Assert.All(zigzag, p => Assert.True(p.At.DistanceTo(p.Stand) <= Usual.StandOffMetres + (3.5 * Foot) + Exact));
    }

    [Fact]
    public void Draft_WalkIn_IsProbedLowAndHighAndAtEachCoil()
    {
        var draft = ProbePlanner.Draft(Store(WalkIn("W1", 40, 60, 12, 14)), Usual);
        var points = draft.Points.Where(p => p.Fixture == "W1").ToList();
        Assert.Equal(["W1-C01", "W1-H01", "W1-L01"], points.Select(p => p.Id));
        Assert.Equal([ProbeHeight.High, ProbeHeight.High, ProbeHeight.Low], points.Select(p => p.Height));
        Assert.All(points, p => Assert.True(Inside(p.Stand, 40, 60, 52, 74)));
        Assert.Equal(0, points[0].At.DistanceTo(Feet(46, 72)), Exact);
        var group = Assert.Single(draft.Groups, g => g.Fixtures.Contains("W1"));
        Assert.Equal(Usual.WalkInSeconds, group.EntrySeconds);
        Assert.Contains("inside release", points[2].Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Draft_LargeWalkIn_HasSeveralPlaces()
    {
        // 20 x 40 ft in cells of at most 5 m: two by three.
        Assert.Equal(12, Points(Store(WalkIn("W1", 40, 50, 20, 40)), ProbePass.LowHigh).Count);
    }

    [Fact]
    public void Draft_WalkInWithoutCoils_LooksFacingTheDoorAndSaysSo()
    {
        var draft = ProbePlanner.Draft(Store(WalkIn("W1", 40, 60, 12, 14) with { Coils = [] }), Usual);
        var coil = Assert.Single(draft.Points, p => p.Pass == ProbePass.Coil);
        Assert.True(coil.At.Y > 70 * Foot);
        Assert.Contains(draft.Notes, n => n.Element == "W1");
    }

    [Fact]
    public void Draft_LineUp_HasOneDischargeCheckAndIsOneGroupWalkedEndToEnd()
    {
        // Given out of order; C2 lies between C1 and C3.
        var draft = ProbePlanner.Draft(
            Store(Case("C1", FixtureKind.OpenCase, 20, 50, 9, "L1"), Case("C3", FixtureKind.OpenCase, 38, 50, 9, "L1"), Case("C2", FixtureKind.OpenCase, 29, 50, 9, "L1")), Usual);
        var discharge = Assert.Single(draft.Points, p => p.Pass == ProbePass.Discharge);
        Assert.Equal("C2", discharge.Fixture);
        Assert.Equal(ProbeHeight.High, discharge.Height);
        var group = Assert.Single(draft.Groups, g => g.Id == "L1");
        Assert.True(group.Reversible);
        Assert.Equal(["C1", "C2", "C3"], group.Fixtures);
        var along = group.Points.Select(id => draft.Points.Single(p => p.Id == id).At.X).ToList();
        Assert.Equal(along.Order(), along);
    }

    [Fact]
    public void Draft_LineUpWithFrontsBothWays_IsWalkedWithoutTurningBack()
    {
        var second = Case("C2", FixtureKind.OpenCase, 29, 50, 9, "L1") with { Front = new PlanLine([Feet(38, 50), Feet(29, 50)]), FrontStartsLeft = false };
        var draft = ProbePlanner.Draft(Store(Case("C1", FixtureKind.OpenCase, 20, 50, 9, "L1"), second), Usual);
        var group = Assert.Single(draft.Groups, g => g.Id == "L1");
        var along = group.Points.Select(id => draft.Points.Single(p => p.Id == id).At.X).ToList();
        Assert.Equal(along.Order(), along);
        Assert.All(draft.Points.Where(p => p.Fixture == "C2"), p => Assert.True(p.Stand.Y < p.At.Y));
    }

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
        Assert.Equal(["C1-N4.0", "C1-N6.0", "C1-N8.0", "C1-N10.0", "C1-N12.0", "C1-N14.0", "C1-N16.0"], points.Select(p => p.Id));
        Assert.Equal([4, 6, 8, 10, 12, 14, 16], points.Select(p => Math.Round(p.Along!.Value / Foot, 9)));
        Assert.Contains("never stop fans on a fed coil", points[0].Note, StringComparison.Ordinal);
    }

    [Fact]
    public void CloseIn_NearAnEnd_GoesOnIntoTheJoinedCase()
    {
        var plan = Store(Case("C1", FixtureKind.OpenCase, 20, 50, 12, "L1"), Case("C2", FixtureKind.OpenCase, 32.1, 50, 12, "L1"));
        var points = ProbePlanner.CloseIn(plan, plan.Fixtures[0], 10 * Foot, Usual);
        Assert.Equal(["C1-N4.0", "C1-N6.0", "C1-N8.0", "C1-N10.0", "C1-N12.0", "C2-N2.0", "C2-N4.0"], points.Select(p => p.Id));
    }

    [Fact]
    public void CloseIn_WalkIn_GoesOverTheCoil()
    {
        var plan = Store(WalkIn("W1", 40, 60, 12, 14));
        var points = ProbePlanner.CloseIn(plan, plan.Fixtures[0], 0, Usual);
        Assert.Equal([Spot.CoilEnd, Spot.ValveEnd, Spot.Drain], points.Select(p => p.Spot));
    }

    private static List<ProbePoint> Points(Plan plan, ProbePass pass) => ProbePlanner.Draft(plan, Usual).Points.Where(p => p.Pass == pass).ToList();

    private static PlanPoint Entered(Plan plan, string first)
    {
        var points = ProbePlanner.Draft(plan, Usual).Points;
        return ProbePlanner.AtEntry(plan, points.Single(p => p.Id == "B-L1"), points.Single(p => p.Id == first), Usual).Stand;
    }

    private static Room Room(string id, RoomKind kind, List<PlanPoint> outline, bool aerosol = false) => new(id, id, kind, outline, [], aerosol, 3);

    private static bool Inside(PlanPoint p, double x1, double y1, double x2, double y2) =>
        p.X > x1 * Foot && p.X < x2 * Foot && p.Y > y1 * Foot && p.Y < y2 * Foot;

    [GeneratedRegex(@"\A[A-Za-z0-9._-]{1,32}\z")]
    private static partial Regex IdPattern();
}
