using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Walking distances between probe points as the searches take them.</summary>
/// <param name="Matrix">Distances and where the feet stand.</param>
/// <param name="Distances">Row by row.</param>
internal sealed record Walked(DistanceMatrix Matrix, double[] Distances)
{
    /// <summary>Measures all walks; refuses when a point can't be reached.</summary>
    public static Walked Between(WalkingPaths paths, IReadOnlyList<ProbePoint> points, CancellationToken cancel)
    {
        var matrix = paths.Between([.. points.Select(p => p.Stand)], [.. points.Select(p => p.Id)], null, cancel);
        if (matrix.Problems.Any(p => p.Severity == Severity.Error)) throw new RefusedInputException(matrix.Problems);
        var distances = new double[points.Count * points.Count];
        for (var i = 0; i < points.Count; i++) matrix.Row(i).CopyTo(distances.AsSpan(i * points.Count));
        return new Walked(matrix, distances);
    }
}
