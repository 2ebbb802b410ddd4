namespace StoreMap.Routing;

/// <summary>A length that no tour can go below, by cuts and branches (<see cref="Of"/>) or by the best 1-tree over node penalties (Held and
/// Karp 1970 and 1971), found by subgradient ascent. Open tours count through the same dummy stop as the search.</summary>
public static class LowerBound
{
    /// <summary>A bound under this share of the tour is compared with the 1-tree's, in case the work did not suffice.</summary>
    private const double WorthMore = 0.97;

    /// <summary>Above this number of stops the 1-tree must do.</summary>
    private const int MostStopsCut = 1000;

    /// <summary>Multiplications allowed when nothing is said: about two seconds up to 800 stops.</summary>
    /// <param name="count">Number of stops.</param>
    public static long DefaultWork(int count) => (long)(1.2e9 * Math.Max(1, Math.Pow(count / 800.0, 3)));

    // Sums of some hundred legs round at about 1e-13 of their size; the bound gives way by much more than that.
    private const double Guard = 1e-10;

    /// <summary>The bound of the relaxation with crossing and 2-matching inequalities, branched on while the work lasts; at least that
    /// of the best 1-tree when the work did not suffice.</summary>
    /// <param name="distances">Symmetric, finite, not negative; row by row, count · count.</param>
    /// <param name="count">Number of stops.</param>
    /// <param name="ends">Closed, or open with free or fixed ends.</param>
    /// <param name="order">A tour with these ends.</param>
    /// <param name="work">Multiplications allowed; null takes <see cref="DefaultWork"/>.</param>
    /// <param name="outOfTime">Asked now and then; true stops the branching at the bound so far.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>A length in the matrix's unit, at least 0 and at most the shortest tour's.</returns>
    public static double Of(
        double[] distances, int count, TourEnds ends, IReadOnlyList<int> order, long? work = null, Func<bool>? outOfTime = null,
        CancellationToken cancel = default)
    {
        var tour = TourMatrix.Length(distances, count, order, ends.IsClosed);
        if (count is < 4 or > MostStopsCut) return OneTree(distances, count, ends, tour, cancel: cancel);
        var problem = BoundProblem.Of(distances, count, ends);
        var closed = ends.IsClosed ? order : [.. order, count];
        var allowed = work ?? DefaultWork(count);
        var bound = CutBound.Of(problem, closed, allowed, outOfTime, cancel) - (Guard * tour);
        if (bound < WorthMore * tour) bound = Math.Max(bound, OneTree(distances, count, ends, tour, cancel: cancel));
        return Math.Clamp(bound, 0, tour);
    }

    /// <summary>The best 1-tree.</summary>
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
