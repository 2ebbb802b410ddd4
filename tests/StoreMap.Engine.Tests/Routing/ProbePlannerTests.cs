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
