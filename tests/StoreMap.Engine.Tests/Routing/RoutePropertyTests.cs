using CsCheck;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>What must hold of walks through any store.</summary>
public class RoutePropertyTests
{
    private const double Clearance = 0.3;

    private static readonly RouteRequest Light = new() { Budget = new TourBudget { Effort = 1500, BoundWork = 2_000_000 } };

    [Fact]
    public void Plan_AnyStore_VisitsEveryPointOnceOnFreeFloorWithoutTearingAGroup() => RandomStore.Plans.SampleAgain(plan =>
    {
        var (draft, paths) = Prepared(plan);
        var route = RoutePlanner.Plan(plan, paths, draft, Light);
        Assert.Equal(draft.Points.Select(p => p.Id).Order(StringComparer.Ordinal), route.Order.Order(StringComparer.Ordinal));
        DemoRoute.AssertGroupsAreWhole(draft.Groups, route.Order);
        Assert.InRange(route.AnyOrderBound, 0, route.LowerBound + 1e-9);
        Assert.True(route.LowerBound <= route.Length + 1e-9);
        Assert.True(route.MinutesLowerBound <= route.Minutes.Total + 1e-9);
        Assert.Equal(route.Legs.Sum(l => l.Path.Zip(l.Path.Skip(1)).Sum(s => s.First.DistanceTo(s.Second))), route.Length, 1e-6);
        foreach (var (a, b) in route.Legs.SelectMany(l => l.Path.Zip(l.Path.Skip(1))))
        {
            for (var t = 0.0; t <= 1; t += 0.125) Assert.True(paths.Floor.Stand(a + ((b - a) * t))!.Value.Moved < 1e-6);
        }
    }, iter: 25);

    [Fact]
    public void Over_OpenWalk_IsNotLongerThanTheClosedOne() => Gen.Select(RandomStore.Plans, RandomStore.Points(30)).SampleAgain(scene =>
    {
        var (plan, points) = scene;
        var paths = new WalkingPaths(FreeFloor.Build(plan, Clearance), threads: 1);
        var closed = RoutePlanner.Over(plan, paths, points, Light).Length;
        Assert.True(RoutePlanner.Over(plan, paths, points, Light with { Closed = false }).Length <= closed + 1e-9);
        Assert.True(RoutePlanner.Over(plan, paths, points, Light with { Closed = false, Start = "p0" }).Length <= closed + 1e-9);
    }, iter: 15);

    [Fact]
    public void Plan_OpenWalk_CostsNoMoreThanTheClosedOne() => RandomStore.Plans.SampleAgain(plan =>
    {
        // Plain metres, no changes of gas; backgrounds are read where the walk comes by, which the search does not weigh.
        var (draft, paths) = Prepared(plan);
        var plain = Light with { Protocol = new Protocol { RewalkWeight = 0, ZeroMinutes = 0 } };
        var bare = draft with { Departments = [], Groups = [.. draft.Groups.Where(g => g.Fixtures.Count > 0)], Points = [.. draft.Points.Where(p => p.Fixture is not null)] };
        if (bare.Groups.Count < 2) return;
        Assert.True(RoutePlanner.Plan(plan, paths, bare, plain with { Closed = false }).Length <= RoutePlanner.Plan(plan, paths, bare, plain).Length + 1e-9);
    }, iter: 15);

    [Fact]
    public void Plan_StoreMirroredOrTurned_IsAsLong() => RandomStore.Plans.SampleAgain(plan =>
    {
        var (draft, paths) = Prepared(plan);
        var length = RoutePlanner.Plan(plan, paths, draft, Light).Length;
        foreach (var (move, mirrored) in new[] { (RandomStore.Mirror, true), ((Func<PlanPoint, PlanPoint>)RandomStore.QuarterTurn, false) })
        {
            var moved = RandomStore.Moved(plan, move, mirrored);
            var walked = RoutePlanner.Plan(moved, new WalkingPaths(FreeFloor.Build(moved, Clearance), threads: 1), RandomStore.Moved(draft, move), Light);
            Assert.Equal(length, walked.Length, 1e-5);
        }
    }, iter: 15);

    [Fact]
    public void Over_OnePointMore_IsNeverShorter() => Gen.Select(RandomStore.Plans, RandomStore.Points(11)).SampleAgain(scene =>
    {
        // Up to 11 stops the tours are the shortest there are, so there is no noise to allow for.
        var (plan, points) = scene;
        var paths = new WalkingPaths(FreeFloor.Build(plan, Clearance), threads: 1);
        foreach (var closed in new[] { true, false })
        {
            var request = Light with { Closed = closed };
            var before = RoutePlanner.Over(plan, paths, points[..^1], request).Length;
            Assert.True(RoutePlanner.Over(plan, paths, points, request).Length >= before - 1e-6);
        }
    }, iter: 40);

    [Fact]
    public void Over_OnePointMoreOfMany_ShortensByNoMoreThanTheSearchesNoise() => Gen.Select(RandomStore.Plans, RandomStore.Points(41)).SampleAgain(scene =>
    {
        var (plan, points) = scene;
        var paths = new WalkingPaths(FreeFloor.Build(plan, Clearance), threads: 1);
        var before = RoutePlanner.Over(plan, paths, points[..^1], Light).Length;
        Assert.True(RoutePlanner.Over(plan, paths, points, Light).Length >= before * 0.995);
    }, iter: 10);

    [Fact]
    public void Plan_LikeliestFirst_IsNeverLaterAndStaysWithinTheGrowth() => Gen.Select(RandomStore.Plans, Gen.Double[0, 0.3]).SampleAgain(scene =>
    {
        var (plan, growth) = scene;
        var (draft, paths) = Prepared(plan);
        var route = RoutePlanner.Plan(plan, paths, draft, Light with { Risk = LeakRisks.Of(plan, draft.Points, []), RiskGrowth = growth });
        DemoRoute.AssertGroupsAreWhole(draft.Groups, route.Order);
        if (route.Risk is not { } risk) return;
        Assert.True(risk.ExpectedMinutes <= risk.UsualExpectedMinutes + 1e-9);
        Assert.True(route.Length <= ((1 + growth) * risk.UsualLength) + 1e-6);
        Assert.True(route.LowerBound <= route.Length + 1e-9);
    }, iter: 15);

    [Fact]
    public void Plan_KeepingItsOwnOrder_SavesExactlyNothing() => RandomStore.Plans.SampleAgain(plan =>
    {
        var (draft, paths) = Prepared(plan);
        var route = RoutePlanner.Plan(plan, paths, draft, Light);
        var again = RoutePlanner.Plan(plan, paths, draft, Light with { Keep = route.Order });
        Assert.Equal(route.Order, again.Order);
        Assert.Equal(0, again.Kept!.SavingMinutes);
    }, iter: 10);

    [Fact]
    public void Replan_AnywhereOnTheWalk_VisitsTheRestOnceInItsOrder() => Gen.Select(RandomStore.Plans, Gen.Double[0, 1]).SampleAgain(scene =>
    {
        var (plan, share) = scene;
        var (draft, paths) = Prepared(plan);
        var route = RoutePlanner.Plan(plan, paths, draft, Light);
        var done = (int)(share * (route.Order.Count - 1));
        if (done == 0) return;
        var at = route.Points.First(p => p.Id == route.Order[done - 1]).Stand;
        var rest = RouteReplanner.Replan(plan, paths, draft, EarlierRoute.Of(route), new ReplanRequest { At = at, Done = [.. route.Order.Take(done)], LeastSaving = 1 });
        Assert.Equal(route.Order.Skip(done).Order(StringComparer.Ordinal), rest.Order.Order(StringComparer.Ordinal));
        DemoRoute.AssertGroupsAreWhole(draft.Groups, rest.Order);
        // A room's or department's background may be met from another side, nothing else moves.
        var backgrounds = draft.Departments.Select(d => d.Background).ToHashSet();
        Assert.Equal(route.Order.Skip(done).Where(id => !backgrounds.Contains(id)), rest.Order.Where(id => !backgrounds.Contains(id)));
        Assert.True(rest.LowerBound <= rest.Length + 1e-9);
    }, iter: 20);

    private static (ProbeDraft Draft, WalkingPaths Paths) Prepared(Plan plan) =>
        (ProbePlanner.Draft(plan, new Protocol()), new WalkingPaths(FreeFloor.Build(plan, Clearance), threads: 1));
}
