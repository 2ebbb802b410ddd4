using CsCheck;
using NetTopologySuite.Geometries;
using StoreMap.Plans;
using StoreMap.Tests.Oracles;
using StoreMap.Walking;

namespace StoreMap.Tests.Walking;

/// <summary>What must hold on any store, over random scenes.</summary>
public class WalkingPropertyTests
{
    /// <summary>Both sides round their corners: the lattice to 0.01 µm, the libraries to the last bit.</summary>
    private const double Rounding = 1e-6;

    private const int Scenes = 40;

    /// <summary>No sum of two of these is a multiple of the scenes' grain, so no gap closes exactly and none opens by rounding.</summary>
    private const double OddClearance = 0.2503;

    [Fact]
    public void Path_OnAnyScene_EqualsTheLibrariesVisibilityGraph() => RandomScene.Any.Sample(
        scene =>
        {
            // Outside source: NetTopologySuite's prepared covers test and QuikGraph's Dijkstra over all corners.
            var oracle = WalkingOracle.Floor(scene.Outline, scene.Obstacles);
            var paths = new WalkingPaths(FreeFloor.Build(scene.Outline, scene.Obstacles, 0));
            var points = scene.Points.Where(paths.Floor.Contains).ToList();
            if (points.Count == 0) return;
            var expected = WalkingOracle.Lengths(oracle, points);
            for (var i = 0; i < points.Count; i++)
            {
                var actual = paths.Path(points[0], points[i])?.Length ?? double.PositiveInfinity;
                if (double.IsInfinity(expected[i])) Assert.Equal(expected[i], actual);
                else Assert.Equal(expected[i], actual, Rounding);
            }
        },
        iter: Scenes);

    [Fact]
    public void Between_OnAnyScene_IsAMetricNoShorterThanTheStraightLine() => RandomScene.Any.Sample(
        scene =>
        {
            var d = Matrix(scene, 0);
            for (var i = 0; i < d.Count; i++)
            {
                Assert.Equal(0, d[i, i]);
                for (var j = 0; j < d.Count; j++)
                {
                    Assert.Equal(d[i, j], d[j, i]);
                    Assert.True(d[i, j] >= d.Standings[i].At.DistanceTo(d.Standings[j].At) - Rounding);
                    Assert.Equal(d[i, j], d.Path(i, j)?.Length ?? double.PositiveInfinity, Rounding);
                    for (var k = 0; k < d.Count; k++) Assert.True(d[i, j] <= d[i, k] + d[k, j] + Rounding);
                }
            }
        },
        iter: Scenes);

    [Fact]
    public void Path_OnAnyScene_StaysOnTheFloorAndKeepsTheClearance() => RandomScene.Any.Sample(
        scene =>
        {
            const double clearance = 0.3;
            var outline = WalkingOracle.Polygon(scene.Outline);
            var blocks = scene.Obstacles.Select(WalkingOracle.Polygon).ToList();
            var d = Matrix(scene, clearance);
            for (var j = 1; j < d.Count; j++)
            {
                if (d.Path(0, j) is not { Length: > 0 } walk) continue;
                var line = new LineString([.. walk.Corners.Select(p => new Coordinate(p.X, p.Y))]);
                Assert.True(outline.Covers(line));
                Assert.True(outline.ExteriorRing.Distance(line) >= clearance - Rounding);
                Assert.All(blocks, b => Assert.True(b.Distance(line) >= clearance - Rounding));
                Assert.Equal(walk.Length, line.Length, Rounding);
            }
        },
        iter: Scenes);

    [Fact]
    public void Between_MirroredOrTurned_GivesTheSameLengths() => Gen.Select(RandomScene.Any, Gen.Double[0, 6.28]).Sample(
        (scene, angle) =>
        {
            // A point off the floor may be as near to two edges; which one is taken is then a matter of rounding.
            var floor = FreeFloor.Build(scene.Outline, scene.Obstacles, OddClearance);
            var inner = scene with { Points = scene.Points.Where(p => Around(p).All(floor.Contains)).ToList() };
            var (sin, cos) = Math.SinCos(angle);
            var expected = Matrix(inner, OddClearance);
            Same(expected, Matrix(Moved(inner, p => new(-p.X, p.Y)), OddClearance));
            Same(expected, Matrix(Moved(inner, p => new((p.X * cos) - (p.Y * sin), (p.X * sin) + (p.Y * cos))), OddClearance));
        },
        iter: Scenes);

    [Fact]
    public void Between_ObstaclesInAnotherOrder_GivesTheSameBits() => RandomScene.Any.Sample(
        scene =>
        {
            var turned = scene.Obstacles.AsEnumerable().Reverse().Select(r => (IReadOnlyList<PlanPoint>)[.. r.Skip(1), r[0]]).ToList();
            var (a, b) = (Matrix(scene, 0.3), Matrix(scene with { Obstacles = turned }, 0.3));
            for (var i = 0; i < a.Count; i++)
            {
                Assert.Equal(a.Standings[i], b.Standings[i]);
                Assert.True(a.Row(i).SequenceEqual(b.Row(i)));
                Assert.Equal(a.Path(0, i)?.Corners, b.Path(0, i)?.Corners);
            }
        },
        iter: Scenes);

    [Fact]
    public void Between_OneObstacleMore_IsNeverShorter() => RandomScene.Any.Sample(
        scene =>
        {
            var all = FreeFloor.Build(scene.Outline, scene.Obstacles, 0);
            var points = scene.Points.Where(all.Contains).ToList();
            var fewer = new WalkingPaths(FreeFloor.Build(scene.Outline, scene.Obstacles.Skip(1).ToList(), 0)).Between(points, cancellation: TestContext.Current.CancellationToken);
            var more = new WalkingPaths(all).Between(points, cancellation: TestContext.Current.CancellationToken);
            for (var i = 0; i < points.Count; i++)
            {
                for (var j = 0; j < i; j++) Assert.True(more[i, j] >= fewer[i, j] - Rounding);
            }
        },
        iter: Scenes);

    private static PlanPoint[] Around(PlanPoint p) => [new(p.X - 1e-3, p.Y), new(p.X + 1e-3, p.Y), new(p.X, p.Y - 1e-3), new(p.X, p.Y + 1e-3)];

    private static DistanceMatrix Matrix(RandomScene scene, double clearance) =>
        new WalkingPaths(FreeFloor.Build(scene.Outline, scene.Obstacles, clearance)).Between(scene.Points, cancellation: TestContext.Current.CancellationToken);

    private static RandomScene Moved(RandomScene scene, Func<PlanPoint, PlanPoint> move) => new(
        [.. scene.Outline.Select(move)], [.. scene.Obstacles.Select(ring => (IReadOnlyList<PlanPoint>)[.. ring.Select(move)])], [.. scene.Points.Select(move)]);

    private static void Same(DistanceMatrix expected, DistanceMatrix actual)
    {
        for (var i = 0; i < expected.Count; i++)
        {
            for (var j = 0; j < i; j++) Assert.Equal(expected[i, j], actual[i, j], Rounding);
        }
    }
}
