using StoreMap.Routing;

namespace StoreMap.Tests.Routing;

/// <summary>Relaxed tours against the same linear programmes solved outside (Cases/tsp/results.csv).</summary>
public class TourRelaxationTests
{
    [Theory]
    [InlineData("rand_uniform_n50")]
    [InlineData("rand_uniform_n100")]
    [InlineData("rand_uniform_n200")]
    [InlineData("USCA50")]
    public void FullBound_CrossingsAlone_EqualsTheSubtourBound(string name)
    {
        var c = TspCase.Load(name);
        var bound = Solve(c, CutFinder.Crossings);
        // Crossings are asked for to a thousandth, which costs next to nothing of the bound.
        Assert.InRange(bound, c.Subtour * (1 - 2e-5), c.Subtour * (1 + 1e-8));
    }

    [Theory]
    [InlineData("rand_uniform_n50")]
    [InlineData("rand_uniform_n100")]
    [InlineData("USCA50")]
    public void FullBound_WithMatchingCuts_ReachesTheBlossomBound(string name)
    {
        var c = TspCase.Load(name);
        Assert.InRange(Solve(c, CutFinder.Find), c.Blossom * 0.9985, c.Best + 1e-6);
    }

    private static double Solve(TspCase c, Func<SupportGraph, IEnumerable<TourCut>> find)
    {
        var every = Enumerable.Range(0, c.Count).SelectMany(i => Enumerable.Range(i + 1, c.Count - 1 - i).Select(j => (i, j)));
        var relaxation = new TourRelaxation(new BoundProblem(c.Distances, c.Count, [], []), every);
        do
        {
            Assert.Equal(LinearEnd.Optimal, relaxation.Solve(long.MaxValue, TestContext.Current.CancellationToken));
        }
        while (relaxation.Add(find(relaxation.Support())) > 0);
        return relaxation.FullBound().Bound;
    }
}
