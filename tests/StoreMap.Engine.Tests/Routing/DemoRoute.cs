using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Tests.Rules;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>The demo store, its free floor and its usual walk, made once for all tests of one class after another.</summary>
internal static class DemoRoute
{
    private static readonly Lazy<Plan> PlanOnce = new(() =>
    {
        using var stream = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "tern-hollow.layout.json"));
        return LayoutDocument.Read(stream).Plan;
    });

    private static readonly Lazy<ProbeDraft> DraftOnce = new(() => ProbePlanner.Draft(Plan, new Protocol()));
    private static readonly Lazy<WalkingPaths> PathsOnce = new(() => new WalkingPaths(FreeFloor.Build(Plan, 0.3)));
    private static readonly Lazy<Route> UsualOnce = new(() => RoutePlanner.Plan(Plan, Paths, Draft, Request));

    public static Plan Plan => PlanOnce.Value;

    public static ProbeDraft Draft => DraftOnce.Value;

    public static WalkingPaths Paths => PathsOnce.Value;

    public static Route Usual => UsualOnce.Value;

    /// <summary>A light search, enough for a walk within a few per cent.</summary>
    public static RouteRequest Request => new() { Budget = new TourBudget { Effort = 4000 } };

    /// <summary>Every group's points stand together, in order or, where allowed, reversed.</summary>
    public static void AssertGroupsAreWhole(IReadOnlyList<ProbeGroup> groups, IReadOnlyList<string> order)
    {
        var place = order.Select((id, i) => (id, i)).ToDictionary(x => x.id, x => x.i);
        foreach (var group in groups)
        {
            var places = group.Points.Where(place.ContainsKey).Select(id => place[id]).ToList();
            if (places.Count < 2) continue;
            var sense = places[1] - places[0];
            Assert.True(sense == 1 || (sense == -1 && group.Reversible), group.Id);
            Assert.All(places.Zip(places.Skip(1)), p => Assert.Equal(sense, p.Second - p.First));
        }
    }
}
