using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Tests.Routing;

/// <summary>Likeliest places first, on the demo store.</summary>
public class RiskFirstTests
{
    private static readonly RiskWeights Weights = new()
    {
        // The last line-up of the usual walk holds most of the leaks; the rest is alike.
        Expected = DemoRoute.Draft.Points.Where(p => p.Fixture is not null).ToDictionary(p => p.Id, p => p.Fixture == LastFixture ? 0.5 : 0.001),
    };

    private static readonly Lazy<Route> Found = new(() => RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Request with { Risk = Weights }));

    private static string LastFixture
    {
        get
        {
            var any = DemoRoute.Draft.Groups.Where(g => g.Turn == GroupTurn.Any).SelectMany(g => g.Points).ToHashSet();
            var points = DemoRoute.Usual.Points.ToDictionary(p => p.Id);
            return DemoRoute.Usual.Order.Where(any.Contains).Select(id => points[id].Fixture).Last(f => f is not null)!;
        }
    }

    [Fact]
    public void Plan_WithRisk_VisitsEveryPointOnceAndTearsNoGroup()
    {
        Assert.Equal(DemoRoute.Usual.Order.Order(StringComparer.Ordinal), Found.Value.Order.Order(StringComparer.Ordinal));
        DemoRoute.AssertGroupsAreWhole(DemoRoute.Draft.Groups, Found.Value.Order);
    }

    [Fact]
    public void Plan_WithRisk_GrowsByNoMoreThanTheShareOfMetres()
    {
        Assert.Equal(DemoRoute.Usual.Length, Found.Value.Risk!.UsualLength, 1e-9);
        Assert.True(Found.Value.Length <= (1.1 * DemoRoute.Usual.Length) + 1e-9);
        Assert.InRange(Found.Value.LowerBound, 1, Math.Min(Found.Value.Length, DemoRoute.Usual.Length));
    }

    [Fact]
    public void Plan_WithRisk_MeetsALeakSooner()
    {
        var risk = Found.Value.Risk!;
        Assert.True(risk.ExpectedMinutes < 0.8 * risk.UsualExpectedMinutes, $"{risk.ExpectedMinutes} of {risk.UsualExpectedMinutes}");
        Assert.Equal(LastFixture, risk.Likeliest[0].Element);
    }

    [Fact]
    public void Plan_WithRisk_ExpectedMinutesAreTheClockOfTheWalk()
    {
        // Summed here from the route's own legs and the protocol, a second way.
        foreach (var (route, said) in new[] { (Found.Value, Found.Value.Risk!.ExpectedMinutes), (DemoRoute.Usual, Found.Value.Risk!.UsualExpectedMinutes) })
        {
            var protocol = new Protocol();
            var points = route.Points.ToDictionary(p => p.Id);
            var changes = route.GasChanges.Select(c => c.Before).ToHashSet();
            var firsts = DemoRoute.Draft.Groups.ToDictionary(g => route.Order.First(g.Points.Contains), g => g.EntrySeconds);
            var (clock, sum, total) = (0.0, 0.0, 0.0);
            for (var i = 0; i < route.Order.Count; i++)
            {
                var id = route.Order[i];
                clock += i == 0 ? 0 : route.Legs[i - 1].Length / protocol.WalkingMetresPerSecond;
                clock += (changes.Contains(id) ? protocol.ZeroMinutes * 60 : 0) + firsts.GetValueOrDefault(id) + protocol.HandlingSeconds(DemoRoute.Plan, points[id]) + points[id].DwellSeconds;
                sum += Weights.At(id) * clock;
                total += Weights.At(id);
            }

            Assert.Equal(sum / total / 60, said, 1e-9);
        }
    }

    [Fact]
    public void Plan_WithWeightsThatSayNothing_IsTheUsualWalk()
    {
        var nothing = RoutePlanner.Plan(DemoRoute.Plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Request with { Risk = new RiskWeights { Expected = new Dictionary<string, double>() } });
        Assert.Equal(DemoRoute.Usual.Order, nothing.Order);
        Assert.Null(nothing.Risk);
    }
}
