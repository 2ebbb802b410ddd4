using System.Text;
using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Tests.Routing;

/// <summary>Replanning on the way, on the demo store.</summary>
public class ReplanTests
{
    private static readonly EarlierRoute Earlier = EarlierRoute.Of(DemoRoute.Usual);

    [Theory]
    [InlineData(1)]
    [InlineData(60)]
    [InlineData(143)]
    [InlineData(290)]
    public void Replan_AfterSomePoints_KeepsTheRestInItsOrder(int done)
    {
        var route = Replan(new ReplanRequest { At = Stand(done - 1), Done = [.. Earlier.Order.Take(done)] });
        Assert.Equal(Earlier.Order.Skip(done), route.Order);
        Assert.False(route.Replanned!.Reordered);
        Assert.Equal(("here", Earlier.Order[0]), (route.Legs[0].From, route.Legs[^1].To));
        // From where the last point was read the rest of the walk is as long as it was.
        Assert.Equal(DemoRoute.Usual.Legs.Skip(done - 1).Sum(l => l.Length), route.Length, 1e-6);
        Assert.InRange(route.LowerBound, 0, route.Length + 1e-9);
    }

    [Fact]
    public void Replan_WithAnAisleOutOfReach_LeavesItOutByName()
    {
        var fixture = DemoRoute.Draft.Points.First(p => p.Pass == ProbePass.Front).Fixture!;
        var route = Replan(new ReplanRequest { At = Stand(0), Done = [Earlier.Order[0]], Unreachable = [fixture] });
        var left = DemoRoute.Usual.Points.Where(p => p.Fixture == fixture).Select(p => p.Id).ToHashSet();
        Assert.Equal(left, route.Replanned!.Unreachable.ToHashSet());
        Assert.DoesNotContain(route.Order, left.Contains);
        Assert.Equal(Earlier.Order.Count - 1 - left.Count, route.Order.Count);
        DemoRoute.AssertGroupsAreWhole(DemoRoute.Draft.Groups, route.Order);
    }

    [Fact]
    public void Replan_WithACloseInPass_WalksItInOneGoNearTheHit()
    {
        var at = Earlier.Order.ToList().FindIndex(id => DemoRoute.Draft.Points.First(p => p.Id == id).Pass == ProbePass.Front) + 1;
        var hit = DemoRoute.Draft.Points.First(p => p.Id == Earlier.Order[at]);
        var closeIn = ProbePlanner.CloseIn(DemoRoute.Plan, DemoRoute.Plan.FindFixture(hit.Fixture)!, hit.Along!.Value, new Protocol());
        var request = new ReplanRequest { At = Stand(at), Done = [.. Earlier.Order.Take(at + 1)], Added = [closeIn] };
        var route = Replan(request);
        DemoRoute.AssertGroupsAreWhole([.. DemoRoute.Draft.Groups, new ProbeGroup { Id = "x", Points = [.. closeIn.Select(p => p.Id)] }], route.Order);
        Assert.Equal(closeIn.Select(p => p.Id).Order(StringComparer.Ordinal), route.Replanned!.Added.Order(StringComparer.Ordinal));
        Assert.Equal(Earlier.Order.Skip(at + 1), route.Order.Except(route.Replanned.Added));

        // No other place for the pass, from either end, makes the walk shorter.
        var without = Replan(request with { Added = [] });
        Assert.True(route.Length - without.Length <= 2 * closeIn.Zip(closeIn.Skip(1)).Sum(p => p.First.Stand.DistanceTo(p.Second.Stand)) + 2);

        // And what was added is known when the walk is replanned again, from its document.
        var json = RouteJson.Of(route, DemoRoute.Plan.Units).ToJsonString();
        var again = RouteReplanner.Replan(
            DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, EarlierRoute.Read(new MemoryStream(Encoding.UTF8.GetBytes(json)), null),
            new ReplanRequest { At = route.Points.First(p => p.Id == route.Order[0]).Stand, Done = [route.Order[0]] });
        Assert.Equal(route.Order.Skip(1), again.Order);
    }

    [Fact]
    public void Replan_FarFromTheOrder_ChangesItOnlyForMoreThanTheShare()
    {
        // The last place of the walk: turning the whole rest about may pay, small things may not.
        var request = new ReplanRequest { At = Stand(200), Done = [.. Earlier.Order.Take(1)] };
        var kept = Replan(request with { LeastSaving = 1 });
        Assert.False(kept.Replanned!.Reordered);
        var free = Replan(request with { LeastSaving = 0 });
        var some = Replan(request);
        Assert.True(free.Length <= kept.Length + 1e-6);
        if (some.Replanned!.Reordered) Assert.True(some.Minutes.Total < kept.Minutes.Total);
        DemoRoute.AssertGroupsAreWhole(DemoRoute.Draft.Groups, free.Order);
    }

    [Fact]
    public void Replan_OwnPoints_InsertsWhereItCostsLeast()
    {
        var plan = new Plan { Id = "p", Name = "P", Outline = [new(0, 0), new(40, 0), new(40, 10), new(0, 10)] };
        var paths = new StoreMap.Walking.WalkingPaths(StoreMap.Walking.FreeFloor.Build(plan, 0), cancellation: TestContext.Current.CancellationToken);
        ProbePoint[] points = [Own("a", 5), Own("b", 15), Own("c", 25), Own("d", 35)];
        var route = RouteReplanner.Replan(
            plan, paths, new ProbeDraft([], [], [], []), new EarlierRoute(["a", "b", "c", "d"], points, null),
            new ReplanRequest { At = new(5, 5), Done = ["a"], Added = [[Own("new", 20)]] });
        Assert.Equal(["b", "new", "c", "d"], route.Order);
        Assert.Equal(30, route.Length, 1e-9);
        Assert.Null(route.Replanned!.Home);
        Assert.Equal(30 / 0.8 / 60, route.Minutes.Total, 1e-9);
    }

    [Fact]
    public void Replan_IdsNobodyKnowsAndNothingLeft_AreRefusedAtOnce()
    {
        var refused = Assert.Throws<RefusedInputException>(() => Replan(new ReplanRequest { At = Stand(0), Done = [.. Earlier.Order, "Z9"], Unreachable = ["Y8"] }));
        Assert.Equal(["Z9", "Y8", null], refused.Problems.Select(p => p.Element));
        Assert.Equal("nothing-left", refused.Problems[^1].Rule);
    }

    private static Route Replan(ReplanRequest request) => RouteReplanner.Replan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, Earlier, request);

    private static PlanPoint Stand(int place) => DemoRoute.Usual.Points.First(p => p.Id == DemoRoute.Usual.Order[place]).Stand;

    private static ProbePoint Own(string id, double x) => new() { Id = id, Pass = ProbePass.Own, At = new(x, 5), Stand = new(x, 5) };
}
