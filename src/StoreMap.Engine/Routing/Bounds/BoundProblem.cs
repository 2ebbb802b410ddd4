namespace StoreMap.Routing;

/// <summary>A closed tour to be bounded from below.</summary>
/// <param name="Distances">Symmetric, row by row.</param>
/// <param name="Count">Number of stops, at least 3.</param>
/// <param name="Forced">Edges that every tour allowed uses.</param>
/// <param name="Blocks">Sets of stops that every tour allowed walks through in one go.</param>
internal sealed record BoundProblem(double[] Distances, int Count, IReadOnlyList<(int A, int B)> Forced, IReadOnlyList<bool[]> Blocks)
{
    /// <summary>The problem of a tour: an open one is closed through a stop at distance 0 from all, tied to the fixed ends.</summary>
    public static BoundProblem Of(double[] distances, int count, TourEnds ends)
    {
        if (ends.IsClosed) return new BoundProblem(distances, count, [], []);
        var size = count + 1;
        var extended = new double[size * size];
        for (var i = 0; i < count; i++) Array.Copy(distances, i * count, extended, i * size, count);
        List<(int, int)> forced = [];
        if (ends.First is int first) forced.Add((first, count));
        if (ends.Last is int last) forced.Add((last, count));
        return new BoundProblem(extended, size, forced, []);
    }

    /// <summary>Distance between two stops.</summary>
    public double Between(int a, int b) => Distances[(a * Count) + b];
}
