using CsCheck;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Tests.Oracles;

namespace StoreMap.Tests.Routing;

/// <summary>Orders of groups against every order and sense of a few groups.</summary>
public class GroupTourTests
{
    private static readonly Gen<(double[] Distances, TourGroup[] Groups)> Scene =
        from ends in Gen.Select(Gen.Double[0, 60], Gen.Double[0, 40], (x, y) => new PlanPoint(x, y)).Array[12]
        from count in Gen.Int[2, 6]
        from reversible in Gen.Bool.Array[6]
        from last in Gen.Bool
        select (TspCase.Euclidean(ends), Enumerable.Range(0, count)
            .Select(g => new TourGroup(2 * g, (2 * g) + 1, reversible[g], (int)(g == 0 ? GroupTurn.First : last && g == count - 1 ? GroupTurn.Last : GroupTurn.Any))).ToArray());

    [Fact]
    public void Run_FewGroups_IsTheShortestOfAllOrdersAndSenses() => Scene.SampleAgain(scene =>
    {
        foreach (var closed in new[] { true, false })
        {
            var n = scene.Groups.Length;
            var best = double.PositiveInfinity;
            foreach (var order in EveryOrder.Of(n))
            {
                if (order.Zip(order.Skip(1)).Any(p => scene.Groups[p.First].Turn > scene.Groups[p.Second].Turn)) continue;
                for (var senses = 0; senses < 1 << n; senses++)
                {
                    bool[] back = [.. order.Select((g, i) => (senses >> i & 1) == 1)];
                    if (order.Where((g, i) => back[i] && !scene.Groups[g].Reversible).Any()) continue;
                    best = Math.Min(best, Length(scene.Distances, scene.Groups, order, back, closed));
                }
            }

            var (found, _, _) = GroupTour.Run(scene.Distances, 12, scene.Groups, closed, new TourBudget());
            Assert.Equal(best, Length(scene.Distances, scene.Groups, found.Order, found.Backwards, closed), 1e-9);
            var bound = GroupBound.Of(scene.Distances, 12, scene.Groups, found, closed, 1_000_000_000, new TourBudget());
            // Groups that may be entered from one end only are bounded as if from both.
            var least = scene.Groups.All(g => g.Reversible) && n > (closed ? 1 : 2) ? best * (1 - 1e-6) : 0;
            Assert.InRange(bound, least - 1e-9, best + 1e-9);
            Assert.All(found.Order.Zip(found.Order.Skip(1)), p => Assert.True(scene.Groups[p.First].Turn <= scene.Groups[p.Second].Turn));
        }
    }, iter: 120);

    private static double Length(double[] distances, TourGroup[] groups, int[] order, bool[] back, bool closed)
    {
        double Walk(int i, int j)
        {
            var exit = back[i] ? groups[order[i]].First : groups[order[i]].Last;
            var entry = back[j] ? groups[order[j]].Last : groups[order[j]].First;
            return distances[(exit * 12) + entry];
        }

        var sum = closed ? Walk(order.Length - 1, 0) : 0;
        for (var i = 1; i < order.Length; i++) sum += Walk(i - 1, i);
        return sum;
    }
}
