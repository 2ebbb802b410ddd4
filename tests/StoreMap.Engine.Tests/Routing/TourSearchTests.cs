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

    // Shares of the best known length: by how much the tour may be longer, and what the bound must reach. Efforts and work are a part of
    // the defaults, to be quick; the benchmarks measure the rest.
    [Theory]
    [InlineData("rand_uniform_n50", 1_000, 0, 1)]
    [InlineData("rand_uniform_n100", 4_000, 0, 1)]
    [InlineData("rand_uniform_n200", 12_000, 0, 0.995)]
    [InlineData("USCA50", 1_000, 0, 1)]
    [InlineData("rand_clustered_n400", 12_000, 0.005, 0.995)]
    [InlineData("rand_uniform_n800", 20_000, 0.01, 0.99)]
    public void Run_PublishedAndInventedInstances_ReachTheBestKnown(string name, long effort, double share, double bounded)
    {
        var c = TspCase.Load(name);
        var tour = TourSearch.Run(c.Distances, c.Count, TourEnds.Closed, new TourBudget { Effort = effort, Cancel = TestContext.Current.CancellationToken });
        Assert.Equal(Enumerable.Range(0, c.Count), tour.Order.Order());
        Assert.InRange(tour.Length, c.Bound - 1e-6, (c.Best * (1 + share)) + 1e-4);
        var work = c.Count > 400 ? 900_000_000 : 250_000_000;
        var bound = LowerBound.Of(c.Distances, c.Count, TourEnds.Closed, tour.Order, work, cancel: TestContext.Current.CancellationToken);
        Assert.InRange(bound, (c.Best * bounded) - 1e-3, Math.Min(tour.Length, c.Best + 1e-4));
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
    public void Run_FewStops_IsTheShortestOfAllOrders() => SmallMatrix.SampleAgain(matrix =>
    {
        var n = (int)Math.Sqrt(matrix.Length);
        foreach (var ends in new[] { TourEnds.Closed, TourEnds.Open, TourEnds.From(1), TourEnds.Between(0, n - 1) })
        {
            var best = EveryOrder.Of(n).Where(o => Allowed(o, ends)).Min(o => Length(matrix, o, ends.IsClosed));
            var tour = TourSearch.Run(matrix, n, ends, new TourBudget());
            Assert.Equal(best, tour.Length, 1e-9);
            Assert.True(Allowed([.. tour.Order], ends));
            Assert.True(LowerBound.OneTree(matrix, n, ends, tour.Length) <= best + 1e-9);
            Assert.InRange(LowerBound.Of(matrix, n, ends, tour.Order), n < 4 ? 0 : best * (1 - 1e-6), best + 1e-9);
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
