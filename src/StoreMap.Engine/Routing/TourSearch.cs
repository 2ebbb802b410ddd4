namespace StoreMap.Routing;

/// <summary>Short tours by chained Lin–Kernighan search (Martin, Otto and Felten 1991; Applegate, Cook and Rohe 2003):
/// a local optimum is perturbed in one small place, mended, and kept unless it is longer than the best by more than a stated slack
/// (record-to-record travel, Dueck 1993). It always holds a valid tour.</summary>
public static class TourSearch
{
    private const int Neighbours = 8;
    private const int LongestStretch = 50;
    private const int StepsPerLook = 64;

    /// <summary>How much longer than the best a tour may be and still be kept, in mean legs. 0 sticks in local optima at 100
    /// to 500 stops, 1 wanders too far at 1,600.</summary>
    private const double Slack = 0.3;

    /// <summary>Searches for a short tour.</summary>
    /// <param name="distances">Symmetric, finite, not negative; row by row, count · count.</param>
    /// <param name="count">Number of stops, at least 1.</param>
    /// <param name="ends">Closed, or open with free or fixed ends.</param>
    /// <param name="budget">Effort, seed, time cap, progress, cancellation.</param>
    /// <returns>The best tour found; up to 11 stops the shortest there is.</returns>
    /// <exception cref="ArgumentException">The matrix has the wrong size, or the ends are no stops.</exception>
    /// <exception cref="OperationCanceledException">The budget's token was cancelled.</exception>
    public static Tour Run(double[] distances, int count, TourEnds ends, TourBudget budget)
    {
        ArgumentNullException.ThrowIfNull(distances);
        ArgumentNullException.ThrowIfNull(budget);
        if (count < 1 || distances.Length != count * count) throw new ArgumentException($"The matrix must hold {count} · {count} distances.", nameof(distances));
        ends.Check(count);
        var matrix = TourMatrix.For(distances, count, ends);
        var (closed, steps, cutShort) = matrix.Size <= SmallTour.MostStops
            ? (SmallTour.Solve(matrix.Distances, matrix.Size), 0L, false)
            : Search(matrix, budget.Effort ?? TourBudget.DefaultEffort(count), budget);
        var order = matrix.Stops(closed);
        return new Tour(order, TourMatrix.Length(distances, count, order, ends.IsClosed), steps, cutShort);
    }

    private static (int[] Order, long Steps, bool CutShort) Search(TourMatrix matrix, long effort, TourBudget budget)
    {
        var count = matrix.Size;
        var near = NeighbourLists.Nearest(matrix.Distances, count, Neighbours);
        var local = new LinKernighan(matrix.Distances, count, near, NearestFirst(matrix.Distances, count));
        local.Improve();
        local.Commit();
        var best = local.Order.ToArray();
        var leg = (TourMatrix.Length(matrix.Distances, count, best, true) + matrix.Reward) / count;
        double now = 0, shortest = 0;
        var random = new SeededRandom(budget.Seed);
        var longest = Math.Min(LongestStretch, (count - 2) / 2);
        for (var step = 0L; step < effort; step++)
        {
            if (step % StepsPerLook == 0)
            {
                budget.Cancel.ThrowIfCancellationRequested();
                if (budget.OutOfTime?.Invoke() == true) return (best, step, true);
                budget.Progress?.Report((double)step / effort);
            }

            var added = local.SwapStretches(random.Below(count), 1 + random.Below(longest), 1 + random.Below(longest));
            var then = now + added - local.Improve();
            if (then > shortest + (Slack * leg))
            {
                local.Rollback();
                continue;
            }

            local.Commit();
            now = then;
            if (now >= shortest - (1e-9 * leg)) continue;
            shortest = now;
            local.Order.CopyTo(best);
        }

        budget.Progress?.Report(1);
        return (best, effort, false);
    }

    private static int[] NearestFirst(double[] distances, int count)
    {
        var order = new int[count];
        var seen = new bool[count];
        seen[0] = true;
        for (var k = 1; k < count; k++)
        {
            var next = -1;
            for (var j = 0; j < count; j++)
            {
                if (!seen[j] && (next < 0 || distances[(order[k - 1] * count) + j] < distances[(order[k - 1] * count) + next])) next = j;
            }

            order[k] = next;
            seen[next] = true;
        }

        return order;
    }
}
