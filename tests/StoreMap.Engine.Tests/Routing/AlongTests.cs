using StoreMap.Routing;

namespace StoreMap.Tests.Routing;

/// <summary>An order that a person made, measured: the planner's own measured again is the planner's route, and others differ as their walks do.</summary>
public class AlongTests
{
    private static RouteRequest Request { get; } = DemoRoute.Request with { Begin = new(6, 0) };

    [Fact]
    public void Along_TheOrderPlanned_IsThePlannedRoute()
    {
        var planned = RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, Request);
        var route = RoutePlanner.Along(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, planned.Points, planned.Order, Request);
        Assert.Equal(planned.Order, route.Order);
        Assert.Equal(planned.Length, route.Length, 1e-9);
        Assert.Equal(planned.Minutes, route.Minutes);
        Assert.Equal(planned.GasChanges, route.GasChanges);
        Assert.Equal(planned.Legs.Select(l => (l.From, l.To, l.Length)), route.Legs.Select(l => (l.From, l.To, l.Length)));
        Assert.Equal((planned.Clock!.End, planned.Clock.Visits.Count), (route.Clock!.End, route.Clock.Visits.Count));
        Assert.Equal(planned.Clock.Read, route.Clock.Read);
    }

    [Fact]
    public void Along_TheOrderTurnedRound_IsAsLongAndHasItsClockTurned()
    {
        var planned = RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, Request);
        var turned = RoutePlanner.Along(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, planned.Points, [.. planned.Order.Reverse()], Request);
        Assert.Equal(planned.Length, turned.Length, 1e-6);
        Assert.Equal(planned.Order[0], turned.Order[^1]);
        Assert.Equal(turned.Clock!.Read.Order(), turned.Clock.Read);
    }

    [Fact]
    public void Along_AnOrderThatLacksOrRepeatsAPoint_IsRefused()
    {
        List<string> ids = [.. DemoRoute.Draft.Points.Select(p => p.Id)];
        Assert.Throws<ArgumentException>(() => RoutePlanner.Along(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Draft.Points, ids[1..], Request));
        Assert.Throws<ArgumentException>(() => RoutePlanner.Along(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Draft.Points, [.. ids[1..], ids[1]], Request));
    }
}
