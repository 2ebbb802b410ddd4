using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Tests.Walking;

/// <summary>Source: Cases/plans, computed outside with an exact visibility graph and again with shapely and networkx.</summary>
public class ReferencePlanTests
{
    /// <summary>The reference pairs carry 9 decimals; the project's goal is 1e-6 m.</summary>
    private const double PairTolerance = 1e-6;

    /// <summary>The reference matrix is rounded to 4 decimals.</summary>
    private const double MatrixTolerance = 0.5e-4 + 1e-6;

    [Theory]
    [InlineData("plan_a")]
    [InlineData("plan_b")]
    public void Path_HundredPairsAtClearanceZero_EqualTheReference(string name)
    {
        var paths = Paths(name);
        var pairs = ReferencePlan.Pairs(name);
        Assert.Equal(100, pairs.Count);
        foreach (var (id, a, b, length) in pairs)
        {
            var walk = paths.Path(a, b);
            Assert.NotNull(walk);
            Assert.True(Math.Abs(walk.Length - length) <= PairTolerance, FormattableString.Invariant($"pair {id}: {walk.Length} instead of {length}"));
            Assert.Equal(a, walk.Corners[0]);
            Assert.Equal(b, walk.Corners[^1]);
            Assert.Equal(walk.Length, walk.Corners.Zip(walk.Corners.Skip(1), (p, q) => p.DistanceTo(q)).Sum(), 1e-9);
        }
    }

    [Theory]
    [InlineData("plan_a")]
    [InlineData("plan_b")]
    public void Between_AllProbes_EqualTheReferenceMatrix(string name)
    {
        var plan = ReferencePlan.Load(name);
        var matrix = Paths(name).Between(plan.Probes, cancellation: TestContext.Current.CancellationToken);
        var expected = ReferencePlan.Matrix(name);
        Assert.Empty(matrix.Problems);
        Assert.Equal(120, matrix.Count);
        for (var i = 0; i + 1 < matrix.Count; i++)
        {
            for (var j = i + 1; j < matrix.Count; j++) Assert.Equal(expected[i][j - i - 1], matrix[i, j], MatrixTolerance);
        }
    }

    [Theory]
    [InlineData("plan_a")]
    [InlineData("plan_b")]
    public void Build_AtClearanceZero_HasTheReferenceArea(string name)
    {
        var plan = ReferencePlan.Load(name);
        var floor = FreeFloor.Build(plan.Outer, plan.Obstacles, 0);
        Assert.Equal(ReferencePlan.FreeArea(name), floor.Area, 1e-3);
        Assert.Single(floor.Regions);
    }

    [Fact]
    public void Between_OnOneThreadOrAll_GivesTheSameBits()
    {
        var plan = ReferencePlan.Load("plan_b");
        var floor = FreeFloor.Build(plan.Outer, plan.Obstacles, 0.3);
        var one = new WalkingPaths(floor, 1).Between(plan.Probes, cancellation: TestContext.Current.CancellationToken);
        var all = new WalkingPaths(floor).Between(plan.Probes, cancellation: TestContext.Current.CancellationToken);
        for (var i = 0; i < one.Count; i++) Assert.True(one.Row(i).SequenceEqual(all.Row(i)));
    }

    private static WalkingPaths Paths(string name)
    {
        var plan = ReferencePlan.Load(name);
        return new WalkingPaths(FreeFloor.Build(plan.Outer, plan.Obstacles, 0));
    }
}
