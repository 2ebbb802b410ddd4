using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Tests.Sheets;
using StoreMap.Walking;
using static StoreMap.Tests.Routing.StoreScene;

namespace StoreMap.Tests.Routing;

/// <summary>A case in a room that is drawn without a door: no walk leads there.</summary>
public class DraftInReachTests
{
    private static readonly Plan Shut = Store(
        Case("C1", FixtureKind.OpenCase, 20, 60, 24), Case("C2", FixtureKind.OpenCase, 60, 60, 24), Case("C9", FixtureKind.OpenCase, 155, 85, 12)) with
    {
        Rooms = [new Room("R1", "Back room", RoomKind.Prep, Box(150, 70, 190, 95), [], false, 3)],
    };

    private static readonly ProbeDraft Draft = ProbePlanner.Draft(Shut, new Protocol());
    private static readonly WalkingPaths Paths = new(FreeFloor.Build(Shut, 0.3), threads: 1);

    [Fact]
    public void InReach_RoomWithoutADoor_LeavesItsPointsOutAndPlansAllOthers()
    {
        var refused = Assert.Throws<RefusedInputException>(() => RoutePlanner.Plan(Shut, Paths, Draft, DemoRoute.Request));
        var (draft, leftOut) = Draft.InReach(Paths.Floor);
        var route = RoutePlanner.Plan(Shut, Paths, draft, DemoRoute.Request);
        Assert.Equal(refused.Problems.Where(p => p.Rule == "point-unreachable").Select(p => p.Element).Order(), leftOut.Select(p => p.Id).Order());
        Assert.All(leftOut, p => Assert.True(p.Fixture == "C9" || p.Room == "R1", p.Id));
        Assert.Equal(Draft.Points.Select(p => p.Id).Except(leftOut.Select(p => p.Id)).Order(), route.Order.Order());
        DemoRoute.AssertGroupsAreWhole(draft.Groups, route.Order);
    }

    [Fact]
    public void InReach_AllReachable_IsTheSameDraft()
    {
        var (draft, leftOut) = DemoRoute.Draft.InReach(DemoRoute.Paths.Floor);
        Assert.Same(DemoRoute.Draft, draft);
        Assert.Empty(leftOut);
    }

    [Theory]
    [InlineData("en", "Not reachable")]
    [InlineData("de", "Nicht zugänglich, auf diesem Rundgang ausgelassen")]
    public void WalkSheet_PointsLeftOut_AreListedAsNotReachable(string language, string heading)
    {
        var (draft, leftOut) = Draft.InReach(Paths.Floor);
        var route = RoutePlanner.Plan(Shut, Paths, draft, DemoRoute.Request) with { LeftOut = leftOut };
        var text = string.Join(' ', WalkSheet.Draw(Shut, route, new SheetContext { Language = language }).SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text));
        Assert.Contains(heading, text, StringComparison.Ordinal);
        Assert.All(leftOut, p => Assert.Contains(p.Id, text, StringComparison.Ordinal));
    }
}
