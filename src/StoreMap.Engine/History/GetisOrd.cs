using MathNet.Numerics;
using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Local hot and cold spots: how far the sum over a place's neighbours departs from what the overall mean would give,
/// in standard deviations. Binary weights. Sources: Getis and Ord 1992; Ord and Getis 1995.</summary>
/// <param name="Z">The score; 0 when it cannot be told (no neighbours, all places neighbours, or no variation).</param>
/// <param name="P">Two-sided probability under the normal law.</param>
public readonly record struct GetisOrd(double Z, double P)
{
    /// <summary>Gi*: every place counts among its own neighbours.</summary>
    /// <param name="values">One per place.</param>
    /// <param name="neighbours">Per place the indices of its neighbours, itself left out; take them from a graph that respects walls.</param>
    public static IReadOnlyList<GetisOrd> Star(IReadOnlyList<double> values, IReadOnlyList<IReadOnlyList<int>> neighbours)
    {
        Check(values, neighbours);
        var n = values.Count;
        var mean = values.Sum() / n;
        var deviation = Math.Sqrt(Math.Max(0, (values.Sum(v => v * v) / n) - (mean * mean)));
        return [.. Enumerable.Range(0, n).Select(i =>
            Score(values[i] + neighbours[i].Sum(j => values[j]), neighbours[i].Count + 1, n, mean, deviation))];
    }

    /// <summary>Gi: the place itself is left out, of its neighbours and of the mean.</summary>
    /// <param name="values">One per place.</param>
    /// <param name="neighbours">Per place the indices of its neighbours, itself left out.</param>
    public static IReadOnlyList<GetisOrd> Plain(IReadOnlyList<double> values, IReadOnlyList<IReadOnlyList<int>> neighbours)
    {
        Check(values, neighbours);
        var n = values.Count - 1;
        double sum = values.Sum(), squares = values.Sum(v => v * v);
        return [.. Enumerable.Range(0, values.Count).Select(i =>
        {
            var mean = (sum - values[i]) / n;
            var deviation = Math.Sqrt(Math.Max(0, ((squares - (values[i] * values[i])) / n) - (mean * mean)));
            return Score(neighbours[i].Sum(j => values[j]), neighbours[i].Count, n, mean, deviation);
        })];
    }

    /// <summary>Neighbours by straight distance: those no farther than the band.</summary>
    /// <param name="places">Metres.</param>
    /// <param name="band">Metres.</param>
    public static IReadOnlyList<IReadOnlyList<int>> Within(IReadOnlyList<PlanPoint> places, double band) =>
        [.. Enumerable.Range(0, places.Count).Select(i =>
            (IReadOnlyList<int>)[.. Enumerable.Range(0, places.Count).Where(j => j != i && places[i].DistanceTo(places[j]) <= band)])];

    private static GetisOrd Score(double sum, int neighbours, int n, double mean, double deviation)
    {
        double w = neighbours, spread = deviation * Math.Sqrt(((n * w) - (w * w)) / (n - 1));
        var z = spread > 0 ? (sum - (mean * w)) / spread : 0;
        return new GetisOrd(z, SpecialFunctions.Erfc(Math.Abs(z) / Math.Sqrt(2)));
    }

    private static void Check(IReadOnlyList<double> values, IReadOnlyList<IReadOnlyList<int>> neighbours)
    {
        if (values.Count != neighbours.Count)
            throw new ArgumentException($"There are {values.Count} values but {neighbours.Count} lists of neighbours.", nameof(neighbours));
    }
}
