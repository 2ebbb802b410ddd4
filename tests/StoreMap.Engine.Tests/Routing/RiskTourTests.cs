using CsCheck;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Tests.Oracles;

namespace StoreMap.Tests.Routing;

/// <summary>Least expected time until a leak is met, against every order and sense of a few groups, timed leg by leg. The problem is the
/// minimum-latency problem, also known as the travelling repairman's, with weights and a limit on length.</summary>
public class RiskTourTests
{
    private const double Speed = 0.8;

    private static readonly Gen<Scene> Scenes =
        from ends in Gen.Select(Gen.Double[0, 60], Gen.Double[0, 40], (x, y) => new PlanPoint(x, y)).Array[12]
        from weights in Gen.Double[0, 1].Array[12]
        from dwell in Gen.Double[5, 60].Array[12]
        from count in Gen.Int[2, 6]
        from reversible in Gen.Bool.Array[6]
        from last in Gen.Bool
        from closed in Gen.Bool
        from growth in Gen.Double[0, 0.5]
        select new Scene(TspCase.Euclidean(ends), weights, dwell, [.. Enumerable.Range(0, count)
            .Select(g => new TourGroup(2 * g, (2 * g) + 1, reversible[g], g == 0 ? (int)GroupTurn.First : last && g == count - 1 ? (int)GroupTurn.Last : (int)GroupTurn.Any))], closed, growth);

    [Fact]
    public void Run_FewGroups_IsTheSoonestOfAllOrdersAndSensesWithinTheLength() => Scenes.SampleAgain(scene =>
    {
        var all = Orders(scene).Select(o => (Order: o, Walk: Time(scene, o))).ToList();
        var shortest = all.MinBy(o => o.Walk.Metres);
        var most = shortest.Walk.Metres * (1 + scene.Growth);
        var (found, _, _) = RiskTour.Run(Problem(scene) with { MostMetres = most }, shortest.Order, new TourBudget { Effort = 50_000 });
        var (metres, latency) = Time(scene, found);
        Assert.True(metres <= most + 1e-9);
        Assert.Equal(all.Where(o => o.Walk.Metres <= most + 1e-9).Min(o => o.Walk.Latency), latency, 1e-6 * latency);
    }, iter: 150);

    [Fact]
    public void Sum_OfAnOrder_IsItsLegsAddedUp() => Scenes.SampleAgain(scene =>
    {
        foreach (var order in Orders(scene).Take(20)) Assert.Equal(Time(scene, order).Metres, RiskTour.Sum(Problem(scene), order).Metres, 1e-9);
    }, iter: 20);

    [Fact]
    public void Run_WithNoRoomToGrow_KeepsTheShortestLength() => Scenes.SampleAgain(scene =>
    {
        var shortest = Orders(scene).MinBy(o => Time(scene, o).Metres)!;
        var least = Time(scene, shortest).Metres;
        var (found, _, _) = RiskTour.Run(Problem(scene) with { MostMetres = least }, shortest, new TourBudget { Effort = 10_000 });
        Assert.Equal(least, Time(scene, found).Metres, 1e-6);
    }, iter: 30);

    private static IEnumerable<GroupOrder> Orders(Scene scene)
    {
        var n = scene.Groups.Length;
        foreach (var order in EveryOrder.Of(n))
        {
            if (order.Zip(order.Skip(1)).Any(p => scene.Groups[p.First].Turn > scene.Groups[p.Second].Turn)) continue;
            for (var senses = 0; senses < 1 << n; senses++)
            {
                bool[] back = [.. order.Select((_, i) => (senses >> i & 1) == 1)];
                if (!order.Where((g, i) => back[i] && !scene.Groups[g].Reversible).Any()) yield return new([.. order], back);
            }
        }
    }

    /// <summary>Walks an order point by point: metres, and weight times seconds until each point is read.</summary>
    private static (double Metres, double Latency) Time(Scene scene, GroupOrder order)
    {
        var stops = order.Order.SelectMany((g, i) => order.Backwards[i] ? new[] { (2 * g) + 1, 2 * g } : [2 * g, (2 * g) + 1]).ToList();
        var (metres, seconds, latency) = (0.0, 0.0, 0.0);
        for (var i = 0; i < stops.Count; i++)
        {
            var leg = i == 0 ? 0 : scene.Distances[(stops[i - 1] * 12) + stops[i]];
            metres += leg;
            seconds += (leg / Speed) + scene.Dwell[stops[i]];
            latency += scene.Weights[stops[i]] * seconds;
        }

        return (scene.Closed ? metres + scene.Distances[(stops[^1] * 12) + stops[0]] : metres, latency);
    }

    private static RiskProblem Problem(Scene scene)
    {
        WalkPiece One(int p) => new(p, p, 0, scene.Dwell[p], scene.Weights[p], scene.Weights[p] * scene.Dwell[p]);
        WalkPiece Both(int a, int b) => One(a).Then(One(b), scene.Distances[(a * 12) + b], scene.Distances[(a * 12) + b] / Speed);
        var groups = Enumerable.Range(0, scene.Groups.Length).ToList();
        return new(
            scene.Distances, [.. scene.Distances.Select(d => d / Speed)], 12, scene.Groups, [.. groups.Select(g => Both(2 * g, (2 * g) + 1))],
            [.. groups.Select(g => Both((2 * g) + 1, 2 * g))], scene.Closed, double.PositiveInfinity, double.PositiveInfinity);
    }

    private sealed record Scene(double[] Distances, double[] Weights, double[] Dwell, TourGroup[] Groups, bool Closed, double Growth);
}
