using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>Walking an aisle again, by plane geometry.</summary>
public class AisleStripsTests
{
    private static readonly AisleStrips Strips = new([[new(0, 0), new(4, 0), new(10, 0)]]);

    [Theory]
    [InlineData(0, 0, 10, 0, 10)]
    [InlineData(10, 0.5, 0, 0.5, 10)]
    [InlineData(-5, 0, 15, 0, 12)]
    [InlineData(5, -5, 5, 5, 0)]
    [InlineData(0, 2, 10, 2, 0)]
    [InlineData(3, 0, 7, 0, 4)]
    public void Along_StraightWalk_CountsWhatRunsAlongTheStrip(double x1, double y1, double x2, double y2, double metres) =>
        Assert.Equal(metres, Strips.Along([new(x1, y1), new(x2, y2)]), 0.3);

    [Fact]
    public void Along_TurningBack_CountsBothWays() => Assert.Equal(16, Strips.Along([new(1, 0), new(9, 0), new(1, 0)]), 0.3);

    [Fact]
    public void Plan_WithAHeavyWeight_TurnsBackLess()
    {
        // Two line-ups, one behind the other, and the zero between them: each is walked out and back along its own aisle unless the
        // weight makes the walk come home through the free aisle between the cases, which is a little longer.
        var plan = StoreScene.Store(StoreScene.Case("C1", FixtureKind.OpenCase, 60, 20, 80), StoreScene.Case("C2", FixtureKind.OpenCase, 60, 70, 80));
        var draft = ProbePlanner.Draft(plan, new Protocol());
        var paths = new WalkingPaths(FreeFloor.Build(plan, 0.3), cancellation: TestContext.Current.CancellationToken);
        var strips = new AisleStrips(draft.Groups.Where(g => g.Points.Count > 1).Select(g => g.Points.Select(id => draft.Points.First(p => p.Id == id).Stand).ToList()));
        double Again(double weight)
        {
            var groupOf = draft.Groups.SelectMany(g => g.Points.Select(p => (p, g.Id))).ToDictionary(x => x.p, x => x.Id);
            var route = RoutePlanner.Plan(plan, paths, draft, DemoRoute.Request with { Protocol = new Protocol { RewalkWeight = weight } });
            return route.Legs.Where(l => groupOf[l.From] != groupOf[l.To]).Sum(l => strips.Along(l.Path));
        }

        Assert.True(Again(5) <= Again(0));
    }
}
