namespace StoreMap.Routing;

/// <summary>Open tours as closed ones: a dummy stop at distance 0 from every stop stands between the last and the first.
/// A fixed end is tied to the dummy by a reward that no detour can match.</summary>
internal sealed class TourMatrix
{
    private readonly int _count;
    private readonly TourEnds _ends;

    private TourMatrix(double[] distances, int size, int count, TourEnds ends, double reward)
    {
        Distances = distances;
        Size = size;
        Reward = reward;
        _count = count;
        _ends = ends;
    }

    /// <summary>Symmetric distances, row by row.</summary>
    public double[] Distances { get; }

    /// <summary>Number of rows: the stops, and the dummy last when the tour is open.</summary>
    public int Size { get; }

    /// <summary>What closed lengths lie under the open ones, because of the fixed ends.</summary>
    public double Reward { get; }

    public static TourMatrix For(double[] distances, int count, TourEnds ends)
    {
        if (ends.IsClosed) return new TourMatrix(distances, count, count, ends, 0);
        var size = count + 1;
        var extended = new double[size * size];
        for (var i = 0; i < count; i++) Array.Copy(distances, i * count, extended, i * size, count);
        var reward = 0.0;
        // Twice the longest leg: a move that drops a tied edge never has a positive partial gain.
        var tie = 1 + (2 * distances.Max());
        foreach (var end in new[] { ends.First, ends.Last })
        {
            if (end is not int stop) continue;
            extended[(stop * size) + count] = extended[(count * size) + stop] = -tie;
            reward += tie;
        }

        return new TourMatrix(extended, size, count, ends, reward);
    }

    /// <summary>The stops of a closed order over this matrix, dummy taken out, from the first stop on. Free ends are
    /// put in a fixed sense, so that equal tours read the same.</summary>
    public int[] Stops(ReadOnlySpan<int> closed)
    {
        var pivot = _ends.IsClosed ? _ends.First ?? 0 : _count;
        var at = closed.IndexOf(pivot);
        var stops = new int[_count];
        var skip = _ends.IsClosed ? 0 : 1;
        for (var i = 0; i < _count; i++) stops[i] = closed[(at + skip + i) % Size];
        if (_ends.IsClosed)
        {
            if (_count > 2 && stops[1] > stops[^1]) Array.Reverse(stops, 1, _count - 1);
        }
        else if (_ends.First is int first ? stops[0] != first : _ends.Last is int last ? stops[^1] != last : stops[0] > stops[^1])
        {
            Array.Reverse(stops);
        }

        return stops;
    }

    /// <summary>A closed order over this matrix of an order of the stops.</summary>
    public int[] Close(IReadOnlyList<int> stops) => _ends.IsClosed ? [.. stops] : [.. stops, _count];

    /// <summary>Length of an order of stops over the plain distances.</summary>
    public static double Length(double[] distances, int count, IReadOnlyList<int> order, bool closed)
    {
        var sum = 0.0;
        for (var i = 1; i < count; i++) sum += distances[(order[i - 1] * count) + order[i]];
        return closed && count > 1 ? sum + distances[(order[count - 1] * count) + order[0]] : sum;
    }
}
