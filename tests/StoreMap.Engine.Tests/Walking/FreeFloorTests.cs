using StoreMap.Plans;
using StoreMap.Walking;
using static StoreMap.Tests.Walking.Scene;

namespace StoreMap.Tests.Walking;

/// <summary>Free floor and walks on scenes small enough to work out by hand. Lengths: plane geometry.</summary>
public class FreeFloorTests
{
    private const double Exact = 1e-9;

    /// <summary>Wall lines are 0.2 µm thick, so a walk round one is longer by less than that at each bend.</summary>
    private const double ThinWall = 1e-6;

    private static readonly PlanPoint Left = new(1, 2);
    private static readonly PlanPoint Right = new(9, 2);

    [Fact]
    public void Path_NothingBetween_IsTheStraightLine()
    {
        var walk = Paths(Box(0, 0, 10, 10), 0, Box(4, 4, 6, 6)).Path(Left, Right)!;
        Assert.Equal([Left, Right], walk.Corners);
        Assert.Equal(8, walk.Length, Exact);
    }

    [Fact]
    public void Path_AlongAnEdge_TouchesIt()
    {
        var walk = Paths(Box(0, 0, 10, 10), 0, Box(4, 2, 6, 8)).Path(Left, Right)!;
        Assert.Equal(8, walk.Length, Exact);
    }

    [Fact]
    public void Path_AlongTheOutline_TouchesIt()
    {
        var walk = Paths(Box(0, 0, 10, 10), 0, Box(4, 0.5, 6, 8)).Path(new(0, 0), new(10, 0))!;
        Assert.Equal(10, walk.Length, Exact);
    }

    [Fact]
    public void Path_BlockTouchingTheWall_GoesRound()
    {
        var walk = Paths(Box(0, 0, 10, 10), 0, Box(4, 0, 6, 5)).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(4, 5), new(6, 5), Right), walk.Length, Exact);
        Assert.Equal(4, walk.Corners.Count);
    }

    [Fact]
    public void Path_TwoBlocksSharingAnEdge_IsNoPassage()
    {
        var walk = Paths(Box(0, 0, 10, 10), 0, Box(4, 0, 6, 2), Box(4, 2, 6, 5)).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(4, 5), new(6, 5), Right), walk.Length, Exact);
    }

    [Fact]
    public void Path_TwoBlocksSharingACorner_IsNoPassage()
    {
        // From the west to the east of the shared corner (5, 5); the blocks reach the walls below and above.
        var paths = Paths(Box(0, 0, 10, 10), 0, Box(2, 0, 5, 5), Box(5, 5, 8, 9));
        var walk = paths.Path(new(4.5, 5.5), new(5.5, 4.5))!;
        Assert.Equal(Over(new(4.5, 5.5), new(5, 9), new(8, 9), new(8, 5), new(5.5, 4.5)), walk.Length, Exact);
    }

    [Fact]
    public void Stand_WhereTwoBlocksShareACorner_StandsOnTheLargerFloor()
    {
        // The blocks close off the lower right part: two floors meet in (4, 4).
        var floor = FreeFloor.Build(Box(0, 0, 10, 10), [Box(2, 0, 4, 4), Box(4, 4, 10, 6)], 0);
        Assert.Equal(2, floor.Regions.Count);
        Assert.Equal(new Standing(new(4, 4), 0, 0), floor.Stand(new(4, 4)));
    }

    [Fact]
    public void Path_OverlappingBlocks_CountAsTheirUnion()
    {
        var walk = Paths(Box(0, 0, 10, 10), 0, Box(4, 0, 6, 3), Box(3, 1, 7, 5), Box(5, 2, 5.5, 5)).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(3, 5), new(7, 5), Right), walk.Length, Exact);
    }

    [Fact]
    public void Path_RoomWall_IsCrossedAtTheOpeningOnly()
    {
        var plan = Plan(Box(0, 0, 10, 10), [Room("R1", Box(5, 0, 10, 10), new PlanSegment(new(5, 7), new(5, 8)))]);
        var walk = Paths(plan).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(5, 7), Right), walk.Length, ThinWall);
    }

    [Fact]
    public void Path_SlantedRoomWall_HasNoLeakWhereItMeetsTheOutline()
    {
        // The wall from (3, 0) to (7, 10) divides the store; its doorway is at its middle, 1 m wide.
        var along = new PlanPoint(4, 10) * (1 / Math.Sqrt(116));
        PlanPoint middle = new(5, 5);
        var (a, b) = (middle + (along * -0.5), middle + (along * 0.5));
        var plan = Plan(Box(0, 0, 10, 10), [Room("R1", [new(3, 0), new(10, 0), new(10, 10), new(7, 10)], new PlanSegment(a, b))]);
        var walk = Paths(plan).Path(new(1, 1), new(9, 1))!;
        Assert.Equal(Over(new(1, 1), a, new(9, 1)), walk.Length, ThinWall);
    }

    [Fact]
    public void Path_DoorwayOfOneOfTwoRoomsOnACommonWall_OpensIt()
    {
        var door = new PlanSegment(new(5, 4), new(5, 5));
        var plan = Plan(Box(0, 0, 10, 10), [Room("R1", Box(0, 0, 5, 10), door), Room("R2", Box(5, 0, 10, 10))]);
        var walk = Paths(plan).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(5, 4), Right), walk.Length, ThinWall);
    }

    [Fact]
    public void Path_WallEndingInTheRoom_IsWalkedRound()
    {
        // All of the room's outline but one stub is open.
        var plan = Plan(Box(0, 0, 10, 10), [Room("R1", Box(5, 0, 10, 10), new PlanSegment(new(5, 3), new(5, 10)))]);
        var walk = Paths(plan).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(5, 3), Right), walk.Length, ThinWall);
    }

    [Fact]
    public void Path_WalkIn_IsEnteredByItsOpening()
    {
        var plan = Plan(Box(0, 0, 10, 10), fixtures: [WalkIn("W1", Box(6, 6, 10, 10), new PlanSegment(new(7, 6), new(8, 6)))]);
        var walk = Paths(plan).Path(new(1, 9), new(7, 9))!;
        Assert.Equal(Over(new(1, 9), new(6, 6), new(7, 6), new(7, 9)), walk.Length, ThinWall);
    }

    [Fact]
    public void Path_OtherFixtures_CannotBeEntered()
    {
        var fixture = new Fixture { Id = "C1", Tag = "C1", Kind = FixtureKind.IslandCase, Outline = Box(4, 1, 6, 9) };
        var walk = Paths(Plan(Box(0, 0, 10, 10), fixtures: [fixture])).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(4, 1), new(6, 1), Right), walk.Length, Exact);
    }

    [Fact]
    public void Path_WithClearance_BendsAtTheMitredCorner()
    {
        var walk = Paths(Box(0, 0, 10, 10), 0.3, Box(4, 0, 6, 5)).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(3.7, 5.3), new(6.3, 5.3), Right), walk.Length, Exact);
    }

    [Fact]
    public void Path_ThroughADoorway_KeepsTheClearanceFromItsEnds()
    {
        var plan = Plan(Box(0, 0, 10, 10), [Room("R1", Box(5, 0, 10, 10), new PlanSegment(new(5, 7), new(5, 8)))]);
        var walk = Paths(plan, 0.3).Path(Left, Right)!;
        Assert.Equal(Over(Left, new(4.7, 7.3), new(5.3, 7.3), Right), walk.Length, Exact);
    }

    [Fact]
    public void Build_DoorwayNarrowerThanTheBody_IsClosed()
    {
        var plan = Plan(Box(0, 0, 10, 10), [Room("R1", Box(5, 0, 10, 10), new PlanSegment(new(5, 7), new(5, 7.5)))]);
        Assert.Equal(2, FreeFloor.Build(plan, 0.3).Regions.Count);
        Assert.Single(FreeFloor.Build(plan, 0.2).Regions);
    }

    [Fact]
    public void Build_WithClearance_HasTheAreaOfTheOffset()
    {
        // (10 - 2c)² less (2 + 2c)² with c = 0.3: 88.36 - 6.76.
        Assert.Equal(81.6, FreeFloor.Build(Box(0, 0, 10, 10), [Box(4, 4, 6, 6)], 0.3).Area, 1e-7);
    }

    [Fact]
    public void Build_SharpCorner_CutsTheMitreAtTwiceTheClearance()
    {
        // A wedge of 20 degrees at (7, 5): the full mitre would reach 0.3 / sin 10° = 1.73 m.
        var half = 4 * Math.Tan(double.DegreesToRadians(10));
        var floor = FreeFloor.Build(Box(0, 0, 10, 10), [[new(3, 5 - half), new(7, 5), new(3, 5 + half)]], 0.3);
        Assert.False(floor.Contains(new(7.599, 5)));
        Assert.True(floor.Contains(new(7.601, 5)));
    }

    [Fact]
    public void Build_RingsThatCrossThemselves_AreRefused()
    {
        var refused = Assert.Throws<RefusedInputException>(() => FreeFloor.Build(Box(0, 0, 10, 10), [[new(1, 1), new(3, 3), new(3, 1), new(1, 3)]], 0));
        Assert.Equal("ring-simple", refused.Problems[0].Rule);
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(5.1)]
    [InlineData(double.NaN)]
    public void Build_ClearanceOutOfRange_IsRefused(double clearance) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => FreeFloor.Build(Box(0, 0, 10, 10), [], clearance));

    [Fact]
    public void Between_PointInsideTheOffset_StandsAtTheNearestPlaceAndIsReported()
    {
        var paths = Paths(Box(0, 0, 10, 10), 0.3, Box(4, 4, 6, 6));
        var matrix = paths.Between([new(1, 5), new(3.9, 5)], ["P1", "P2"], cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(new PlanPoint(3.7, 5), matrix.Standings[1].At);
        Assert.Equal(0.2, matrix.Standings[1].Moved, Exact);
        Assert.Equal(2.7, matrix[0, 1], Exact);
        var problem = Assert.Single(matrix.Problems);
        Assert.Equal((Severity.Warning, "P2", "point-moved"), (problem.Severity, problem.Element, problem.Rule));
        Assert.Contains("0.2 m", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Between_PointBehindClosedWalls_IsNamed()
    {
        var plan = Plan(Box(0, 0, 10, 10), [Room("R1", Box(6, 6, 9, 9))]);
        var matrix = Paths(plan).Between([new(1, 5), new(2, 5), new(7, 7)], ["P1", "P2", "P3"], cancellation: TestContext.Current.CancellationToken);
        Assert.Equal(double.PositiveInfinity, matrix[0, 2]);
        Assert.Null(matrix.Path(0, 2));
        var problem = Assert.Single(matrix.Problems);
        Assert.Equal((Severity.Error, "P3", "point-unreachable"), (problem.Severity, problem.Element, problem.Rule));
    }

    [Fact]
    public void Between_NoFloorLeft_IsRefused()
    {
        var paths = Paths(Box(0, 0, 10, 10), 5);
        var refused = Assert.Throws<RefusedInputException>(() => paths.Between([new(5, 5)], cancellation: TestContext.Current.CancellationToken));
        Assert.Equal("no-free-floor", refused.Problems[0].Rule);
    }

    [Fact]
    public void Between_Cancelled_Stops()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        var paths = Paths(Box(0, 0, 10, 10), 0);
        Assert.Throws<OperationCanceledException>(() => paths.Between([new(5, 5), new(6, 6)], cancellation: source.Token));
    }

    [Fact]
    public void Stand_OutsideTheStore_StandsAtTheNearestWall()
    {
        var standing = FreeFloor.Build(Box(0, 0, 10, 10), [], 0.3).Stand(new(5, -2))!.Value;
        Assert.Equal(new PlanPoint(5, 0.3), standing.At);
        Assert.Equal(2.3, standing.Moved, Exact);
    }
}
