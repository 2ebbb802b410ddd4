using CsCheck;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Tests.Oracles;

namespace StoreMap.Tests.Routing;

/// <summary>Short tours and bounds against other programs' best (Cases/tsp) and against every order of a few stops.</summary>
public class TourSearchTests
{
    private static readonly Gen<double[]> SmallMatrix =
        Gen.Select(Gen.Double[0, 60], Gen.Double[0, 40], (x, y) => new PlanPoint(x, y)).Array[3, 8].Select(TspCase.Euclidean);

    // Share by which a tour may be longer than the best known; the issue of quality is measured by the benchmarks at full effort.
    [Theory]
    [InlineData("rand_uniform_n50", 0)]
    [InlineData("rand_uniform_n100", 0)]
    [InlineData("rand_uniform_n200", 0)]
    [InlineData("USCA50", 0)]
    [InlineData("rand_clustered_n400", 0.005)]
    public void Run_PublishedAndInventedInstances_ReachTheBestKnown(string name, double share)
    {
        var c = TspCase.Load(name);
        var tour = TourSearch.Run(c.Distances, c.Count, TourEnds.Closed, new TourBudget { Cancel = TestContext.Current.CancellationToken });
        Assert.Equal(Enumerable.Range(0, c.Count), tour.Order.Order());
        Assert.InRange(tour.Length, c.Bound - 1e-6, (c.Best * (1 + share)) + 1e-4);
    }

    [Theory]
    [InlineData("rand_uniform_n50")]
    [InlineData("rand_uniform_n100")]
    [InlineData("rand_uniform_n200")]
    [InlineData("USCA50")]
    public void OneTree_PublishedAndInventedInstances_EqualsTheHeldKarpBound(string name)
    {
        var c = TspCase.Load(name);
        var bound = LowerBound.OneTree(c.Distances, c.Count, TourEnds.Closed, c.Best, cancel: TestContext.Current.CancellationToken);
        Assert.InRange(bound, c.OneTree * 0.999, c.OneTree * (1 + 1e-6));
    }

    [Fact]
    public void Run_FewStops_IsTheShortestOfAllOrders() => SmallMatrix.Sample(matrix =>
    {
        var n = (int)Math.Sqrt(matrix.Length);
        foreach (var ends in new[] { TourEnds.Closed, TourEnds.Open, TourEnds.From(1), TourEnds.Between(0, n - 1) })
        {
            var best = EveryOrder.Of(n).Where(o => Allowed(o, ends)).Min(o => Length(matrix, o, ends.IsClosed));
            var tour = TourSearch.Run(matrix, n, ends, new TourBudget());
            Assert.Equal(best, tour.Length, 1e-9);
            Assert.True(Allowed([.. tour.Order], ends));
            Assert.True(LowerBound.OneTree(matrix, n, ends, tour.Length) <= best + 1e-9);
        }
    }, iter: 40);

    [Fact]
    public void Run_SameSeedAndEffort_GivesTheSameOrder()
    {
        var c = TspCase.Load("rand_uniform_n100");
        var budget = new TourBudget { Effort = 500, Seed = 7 };
        Assert.Equal(TourSearch.Run(c.Distances, c.Count, TourEnds.Open, budget).Order, TourSearch.Run(c.Distances, c.Count, TourEnds.Open, budget).Order);
    }

    [Fact]
    public void Run_OutOfTime_HoldsAValidTourAndSaysSo()
    {
        var c = TspCase.Load("rand_uniform_n100");
        var tour = TourSearch.Run(c.Distances, c.Count, TourEnds.Closed, new TourBudget { OutOfTime = () => true });
        Assert.True(tour.CutShort);
        Assert.Equal(Enumerable.Range(0, c.Count), tour.Order.Order());
    }

    [Fact]
    public void Run_Cancelled_Stops() => Assert.ThrowsAny<OperationCanceledException>(() =>
    {
        var c = TspCase.Load("rand_uniform_n50");
        TourSearch.Run(c.Distances, c.Count, TourEnds.Closed, new TourBudget { Cancel = new CancellationToken(canceled: true) });
    });

    private static bool Allowed(int[] order, TourEnds ends) =>
        (ends.First is not int first || order[0] == first) && (ends.Last is not int last || order[^1] == last);

    private static double Length(double[] matrix, int[] order, bool closed)
    {
        var n = order.Length;
        var sum = closed ? matrix[(order[^1] * n) + order[0]] : 0;
        for (var i = 1; i < n; i++) sum += matrix[(order[i - 1] * n) + order[i]];
        return sum;
    }
}
