namespace StoreMap.Routing;

/// <summary>A length that no tour can go below: the best 1-tree over node penalties (Held and Karp 1970 and 1971), found by subgradient
/// ascent. Open tours count through the same dummy stop as the search.</summary>
public static class LowerBound
{
    // Sums of some hundred legs round at about 1e-13 of their size; the bound gives way by much more than that.
    private const double Guard = 1e-10;

    /// <summary>Computes the bound.</summary>
    /// <param name="distances">Symmetric, finite, not negative; row by row, count · count.</param>
    /// <param name="count">Number of stops.</param>
    /// <param name="ends">Closed, or open with free or fixed ends.</param>
    /// <param name="tour">Length of a known tour, which sets the size of the steps; at least the shortest tour's.</param>
    /// <param name="rounds">Rounds of ascent; the default of 400 leaves little to gain.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>A length in the matrix's unit, at least 0 and at most the shortest tour's.</returns>
    public static double OneTree(double[] distances, int count, TourEnds ends, double tour, int rounds = 400, CancellationToken cancel = default)
    {
        if (count < 3) return count < 2 ? 0 : Math.Max(0, distances[1] * (ends.IsClosed ? 2 : 1));
        var matrix = TourMatrix.For(distances, count, ends);
        var tree = new OneTreeSearch(matrix.Distances, matrix.Size);
        var penalty = new double[matrix.Size];
        var (best, target) = (double.NegativeInfinity, tour - matrix.Reward);
        var (scale, stuck) = (1.0, 0);
        var before = new int[matrix.Size];
        for (var round = 0; round < rounds; round++)
        {
            cancel.ThrowIfCancellationRequested();
            var length = tree.Shortest(penalty);
            for (var i = 0; i < penalty.Length; i++) length -= 2 * penalty[i];
            stuck = length > best + (1e-7 * Math.Abs(tour)) ? 0 : stuck + 1;
            best = Math.Max(best, length);
            if (stuck > 12) (scale, stuck) = (scale * 0.7, 0);
            var square = 0;
            foreach (var degree in tree.Degree) square += (degree - 2) * (degree - 2);
            if (square == 0) break;
            var step = scale * Math.Max(target - length, 1e-6 * tour) / square;
            for (var i = 0; i < penalty.Length; i++)
            {
                // Seven tenths of the new direction and three of the last one damp the zigzag (Volgenant and Jonker 1982).
                var now = tree.Degree[i] - 2;
                penalty[i] += step * ((0.7 * now) + (0.3 * before[i]));
                before[i] = now;
            }
        }

        return Math.Max(0, best + matrix.Reward - (Guard * (Math.Abs(best) + matrix.Reward)));
    }
}
