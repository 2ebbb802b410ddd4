using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Tests.Rules;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>The protocol's walk through the demo store.</summary>
public class RoutePlannerTests
{
    private static readonly Lazy<(Plan Plan, ProbeDraft Draft, Route Route)> Demo = new(() =>
    {
        using var stream = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "tern-hollow.layout.json"));
        var plan = LayoutDocument.Read(stream).Plan;
        var draft = ProbePlanner.Draft(plan, new Protocol());
        return (plan, draft, RoutePlanner.Plan(plan, new WalkingPaths(FreeFloor.Build(plan, 0.3)), draft, new RouteRequest()));
    });

    [Fact]
    public void Plan_Demo_VisitsEveryPointOnce() =>
        Assert.Equal(Demo.Value.Draft.Points.Select(p => p.Id).Order(StringComparer.Ordinal), Demo.Value.Route.Order.Order(StringComparer.Ordinal));

    [Fact]
    public void Plan_Demo_BeginsWithTheZeroAndReadsAerosolRoomsLast()
    {
        var order = Demo.Value.Route.Order;
        var pass = Demo.Value.Draft.Points.ToDictionary(p => p.Id, p => p.Pass);
        Assert.Equal(ProbePass.Zero, pass[order[0]]);
        var last = Demo.Value.Draft.Groups.Where(g => g.Turn == GroupTurn.Last).SelectMany(g => g.Points).ToHashSet();
        Assert.NotEmpty(last);
        Assert.All(order.TakeLast(last.Count), id => Assert.Contains(id, last));
    }

    [Fact]
    public void Plan_Demo_NeverTearsAGroup()
    {
        var (_, draft, route) = Demo.Value;
        var place = route.Order.Select((id, i) => (id, i)).ToDictionary(x => x.id, x => x.i);
        foreach (var group in draft.Groups)
        {
            var places = group.Points.Select(id => place[id]).ToList();
            Assert.Equal(group.Points.Count - 1, Math.Abs(places[^1] - places[0]));
            var sense = Math.Sign(places[^1] - places[0]);
            Assert.All(places.Zip(places.Skip(1)), p => Assert.Equal(sense, p.Second - p.First));
            if (!group.Reversible) Assert.True(sense >= 0);
        }
    }

    [Fact]
    public void Plan_Demo_ReadsEachBackgroundBeforeItsDepartment()
    {
        var (_, draft, route) = Demo.Value;
        var place = route.Order.Select((id, i) => (id, i)).ToDictionary(x => x.id, x => x.i);
        var groups = draft.Groups.ToDictionary(g => g.Id);
        foreach (var department in draft.Departments)
            Assert.All(department.Groups.SelectMany(g => groups[g].Points), id => Assert.True(place[department.Background] < place[id]));
    }

    [Fact]
    public void Plan_Demo_WalksOnFreeFloor()
    {
        var (plan, _, route) = Demo.Value;
        var floor = FreeFloor.Build(plan, 0.3);
        foreach (var leg in route.Legs)
        {
            foreach (var corner in leg.Path) Assert.True(floor.Stand(corner)!.Value.Moved < 1e-6);
        }

        Assert.True(route.LowerBound <= route.Length);
    }

    [Fact]
    public void Plan_Demo_OrderIsProvedTheBest()
    {
        // Weak duality: the bound stands without the search, so that where both meet the order is the best.
        var weighed = Demo.Value.Route.Weighed!;
        Assert.InRange(weighed.LowerBound, weighed.Metres * (1 - 1e-8), weighed.Metres);
    }

    [Fact]
    public void Plan_MoreEffortAfterTheBestIsFound_ChangesNothing()
    {
        // As the client asks for it: a fifth of the effort, no bounds.
        var (plan, draft, route) = Demo.Value;
        var paths = new WalkingPaths(FreeFloor.Build(plan, 0.3), cancellation: TestContext.Current.CancellationToken);
        var quick = RoutePlanner.Plan(plan, paths, draft, new RouteRequest { Budget = new TourBudget { Effort = 5000, BoundWork = 0 } });
        Assert.Equal(route.Order, quick.Order);
        Assert.Equal((0, 0, 0), (quick.LowerBound, quick.AnyOrderBound, quick.Weighed!.LowerBound));
    }

    [Fact]
    public void Plan_SameInput_GivesTheSameDocument()
    {
        var (plan, draft, route) = Demo.Value;
        var again = RoutePlanner.Plan(plan, new WalkingPaths(FreeFloor.Build(plan, 0.3), cancellation: TestContext.Current.CancellationToken), draft, new RouteRequest());
        Assert.Equal(RouteJson.Of(route, plan.Units).ToJsonString(), RouteJson.Of(again, plan.Units).ToJsonString());
    }

    [Fact]
    public void Over_PointNobodyCanReach_IsRefusedByName()
    {
        var plan = new Plan
        {
            Id = "cut",
            Name = "Cut",
            Outline = [new(0, 0), new(10, 0), new(10, 10), new(0, 10)],
            Obstacles = [new Obstacle("G1", "wall", [new(4, 0), new(5, 0), new(5, 10), new(4, 10)])],
        };
        ProbePoint[] points = [Own("near", 1, 1), Own("next", 1, 2), Own("far", 9, 9)];
        var refused = Assert.Throws<RefusedInputException>(
            () => RoutePlanner.Over(plan, new WalkingPaths(FreeFloor.Build(plan, 0), cancellation: TestContext.Current.CancellationToken), points, new RouteRequest()));
        Assert.Equal("far", Assert.Single(refused.Problems, p => p.Severity == Severity.Error).Element);
    }

    [Fact]
    public void Read_PointsWithFaults_SaysAllOfThem()
    {
        var plan = new Plan { Id = "p", Name = "P", Outline = [new(0, 0), new(1, 0), new(1, 1)] };
        using var stream = new MemoryStream("id,x,y\na,1,2\na,x,3\nb,4,NaN\n"u8.ToArray());
        var refused = Assert.Throws<RefusedInputException>(() => RoutePoints.Read(stream, "points.csv", plan));
        Assert.Equal(["id-unique", "number", "number"], refused.Problems.Select(p => p.Rule));
    }

    private static ProbePoint Own(string id, double x, double y) => new() { Id = id, Pass = ProbePass.Own, At = new(x, y), Stand = new(x, y) };
}
