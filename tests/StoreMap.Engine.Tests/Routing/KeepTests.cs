using System.Text;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>Last month's order is kept unless a change saves over a share of the minutes.</summary>
public class KeepTests
{
    [Fact]
    public void Plan_KeepingTheRouteJustMade_SavesExactlyNothing()
    {
        var json = RouteJson.Of(DemoRoute.Usual, DemoRoute.Plan.Units).ToJsonString();
        var read = EarlierRoute.Read(new MemoryStream(Encoding.UTF8.GetBytes(json)), "route.json");
        var again = RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Request with { Keep = read.Order });
        Assert.Equal(DemoRoute.Usual.Order, again.Order);
        Assert.Equal(new RouteKept(true, 0, 0.05), again.Kept);
    }

    [Fact]
    public void Plan_KeepingAnOrderAlmostAsGood_KeepsIt()
    {
        // The walk of a hurried search.
        var earlier = RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, new RouteRequest { Budget = new TourBudget { Effort = 0 } });
        Assert.NotEqual(DemoRoute.Usual.Order, earlier.Order);
        var kept = RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Request with { Keep = earlier.Order });
        Assert.True(kept.Kept!.IsKept);
        Assert.Equal(earlier.Order, kept.Order);
        // A walk along a line-up without probing weighs more than its minutes, so the order found may even take a little longer.
        Assert.Equal(Math.Max(0, earlier.Minutes.Total - DemoRoute.Usual.Minutes.Total), kept.Kept.SavingMinutes, 1e-9);
    }

    [Fact]
    public void Plan_KeepingAPoorOrder_TakesTheNewOne()
    {
        // The draft's own order goes to and fro between systems and aisles.
        List<string> poor = [.. DemoRoute.Draft.Groups.OrderBy(g => g.Points[0][^1]).ThenBy(g => g.Id, StringComparer.Ordinal).SelectMany(g => g.Points)];
        var taken = RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Request with { Keep = poor });
        Assert.False(taken.Kept!.IsKept);
        Assert.Equal(DemoRoute.Usual.Order, taken.Order);
        Assert.True(taken.Kept.SavingMinutes > 0.05 * (taken.Minutes.Total + taken.Kept.SavingMinutes));
    }

    [Fact]
    public void Plan_KeepingAnOrderOfAnotherRevision_PutsNewGroupsInAndLeavesGoneOnesOut()
    {
        var fixtures = DemoRoute.Draft.Groups.Where(g => g.Fixtures.Count > 0).ToList();
        var missing = fixtures[3].Points.ToHashSet();
        List<string> earlier = ["gone-F01", .. DemoRoute.Usual.Order.Where(id => !missing.Contains(id))];
        var kept = RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Request with { Keep = earlier });
        Assert.Equal(DemoRoute.Usual.Order.Count, kept.Order.Distinct().Count());
        DemoRoute.AssertGroupsAreWhole(DemoRoute.Draft.Groups, kept.Order);
    }

    [Fact]
    public void Over_KeepingOwnPoints_SavesNothingOnTheSameAndTakesABetter()
    {
        var plan = new Plan { Id = "p", Name = "P", Outline = [new(0, 0), new(40, 0), new(40, 40), new(0, 40)] };
        var paths = new WalkingPaths(FreeFloor.Build(plan, 0), cancellation: TestContext.Current.CancellationToken);
        ProbePoint[] points = [.. new[] { (0, 0), (0, 30), (30, 30), (30, 0) }.Select((p, i) => new ProbePoint { Id = $"p{i}", Pass = ProbePass.Own, At = new(p.Item1, p.Item2), Stand = new(p.Item1, p.Item2) })];
        var same = RoutePlanner.Over(plan, paths, points, new RouteRequest { Keep = ["p0", "p1", "p2", "p3"] });
        Assert.Equal(new RouteKept(true, 0, 0.05), same.Kept);
        // Crossing the square twice: 60 + 2 · 42.43 m instead of 120 m.
        var crossed = RoutePlanner.Over(plan, paths, points, new RouteRequest { Keep = ["p0", "p2", "p1", "p3"] });
        Assert.False(crossed.Kept!.IsKept);
        Assert.Equal((60 + (2 * Math.Sqrt(1800)) - 120) / 0.8 / 60, crossed.Kept.SavingMinutes, 1e-9);
        Assert.Equal(120, crossed.Length, 1e-9);
    }

    [Fact]
    public void Read_WhatIsNoRoute_IsRefusedWithAllItsFaults()
    {
        static IReadOnlyList<string> Rules(string text) =>
            [.. Assert.Throws<RefusedInputException>(() => EarlierRoute.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "r.json")).Problems.Select(p => p.Rule)];
        Assert.Equal(["json"], Rules("[1, 2"));
        Assert.Equal(["units", "route-point", "route-order"], Rules("""{ "units": "yd", "points": [{ "id": "a" }], "order": [] }"""));
        Assert.Equal(["route-order"], Rules("""{ "units": "m", "points": [{ "id": "a", "pass": "own", "at": [0, 0], "stand": [0, 0] }], "order": ["a", "b"] }"""));
    }
}
