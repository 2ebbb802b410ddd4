using System.Text.Json;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Tests.Walking;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>Routes over own points on the two store plans of Cases/plans, made into layouts, against the best tours found there.</summary>
public class ReferencePlanTourTests
{
    private const double Share = 0.002;

    [Theory]
    [InlineData("plan_a", "closed_tour", true, null)]
    [InlineData("plan_a", "open_path_free_ends", false, null)]
    [InlineData("plan_a", "open_path_from_probe_1", false, "1")]
    [InlineData("plan_b", "closed_tour", true, null)]
    [InlineData("plan_b", "open_path_free_ends", false, null)]
    [InlineData("plan_b", "open_path_from_probe_1", false, "1")]
    public void Over_ReferencePlan_IsWithinAFifthOfAPercentOfTheBest(string name, string problem, bool closed, string? start)
    {
        var scene = ReferencePlan.Load(name);
        var plan = new Plan
        {
            Id = "reference",
            Name = name,
            Outline = scene.Outer,
            Obstacles = [.. scene.Obstacles.Select((o, i) => new Obstacle($"G{i}", "shelving", o))],
        };
        var points = scene.Probes.Select((p, i) => new ProbePoint
        {
            Id = (i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), Pass = ProbePass.Own, At = p, Stand = p,
        }).ToList();
        var paths = new WalkingPaths(FreeFloor.Build(plan, 0), cancellation: TestContext.Current.CancellationToken);
        var route = RoutePlanner.Over(plan, paths, points, new RouteRequest { Closed = closed, Start = start, Budget = new TourBudget { Effort = 6_000 } });
        using var json = JsonDocument.Parse(CaseFiles.Text($"plans/{name}_tours.json"));
        var known = json.RootElement.GetProperty(problem);
        var (best, bound) = (known.GetProperty("best_length_m").GetDouble(), known.GetProperty("lower_bound_m").GetDouble());
        Assert.InRange(route.Length, bound - 1e-6, best * (1 + Share));
        // At 120 points the search for a bound ends with a proof.
        Assert.InRange(route.LowerBound, best * (1 - 1e-6), best + 1e-6);
        Assert.Equal(points.Select(p => p.Id).Order(), route.Order.Order());
        if (start is not null) Assert.Equal(start, route.Order[0]);
        Assert.Equal(route.Length, route.Legs.Sum(l => l.Path.Zip(l.Path.Skip(1), (a, b) => a.DistanceTo(b)).Sum()), 1e-6);
    }
}
