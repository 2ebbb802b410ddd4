namespace StoreMap.Routing;

/// <summary>A bound on closed tours: the relaxation with crossing and 2-matching inequalities, then branching on edges, the lowest
/// branch first (Land and Doig 1960; Padberg and Rinaldi 1991), until the work allowed is spent or the tour is proved shortest.</summary>
internal sealed class CutBound
{
    private const int StartNeighbours = 7;
    private const int MostRounds = 400;

    /// <summary>Branches are closed this much under the tour, as its share: rounding, and no more than anyone can measure.</summary>
    private const double Close = 1e-9;

    private readonly BoundProblem problem;
    private readonly TourRelaxation relaxation;
    private readonly double tour;
    private readonly long work;
    private readonly CancellationToken cancel;
    private readonly Func<bool>? outOfTime;

    private CutBound(BoundProblem problem, IReadOnlyList<int> order, double tour, long work, Func<bool>? outOfTime, CancellationToken cancel)
    {
        (this.problem, this.tour, this.work, this.outOfTime, this.cancel) = (problem, tour, work, outOfTime, cancel);
        var near = NeighbourLists.Nearest(problem.Distances, problem.Count, StartNeighbours);
        var start = order.Select((a, i) => (a, order[(i + 1) % order.Count])).ToList();
        for (var i = 0; i < problem.Count; i++)
        {
            for (var k = 0; k < near.Width; k++) start.Add((i, near.Stops[(i * near.Width) + k]));
        }

        relaxation = new TourRelaxation(problem, start);
    }

    /// <summary>Computes the bound.</summary>
    /// <param name="problem">The tours to be bounded.</param>
    /// <param name="order">A tour allowed.</param>
    /// <param name="work">Multiplications allowed.</param>
    /// <param name="outOfTime">Asked now and then; true stops the branching at the bound so far.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>A length that no tour allowed can be under, at most that of the order.</returns>
    public static double Of(BoundProblem problem, IReadOnlyList<int> order, long work, Func<bool>? outOfTime, CancellationToken cancel)
    {
        var length = order.Select((a, i) => problem.Between(a, order[(i + 1) % order.Count])).Sum();
        return new CutBound(problem, order, length, work, outOfTime, cancel).Run();
    }

    private bool Spent => relaxation.Work >= work || outOfTime?.Invoke() == true;

    private double Target => tour * (1 - Close);

    private double Run()
    {
        var root = Root();
        if (root >= Target || Spent) return Math.Min(root, tour);
        return Math.Min(tour, Branch(root));
    }

    /// <summary>Cuts and prices until neither helps.</summary>
    private double Root()
    {
        var (best, stale) = (double.NegativeInfinity, 0);
        for (var round = 0; round < MostRounds; round++)
        {
            var end = relaxation.Solve(work, cancel);
            var (bound, reduced) = relaxation.FullBound();
            stale = bound > best + (1e-6 * tour) ? 0 : stale + 1;
            best = Math.Max(best, bound);
            if (end != LinearEnd.Optimal || best >= Target) break;
            if (relaxation.Add(Unpaid(reduced)) > 0) continue;
            if (stale > 4) break;
            relaxation.Tidy();
            if (relaxation.Add(CutFinder.Find(relaxation.Support())) == 0) break;
        }

        return best;
    }

    /// <summary>Edges outside the relaxation that would lower its cost, the cheapest first.</summary>
    private IEnumerable<(int A, int B)> Unpaid(double[] reduced)
    {
        var n = problem.Count;
        var found = new List<(double Reduced, int A, int B)>();
        for (var i = 0; i < n; i++)
        {
            for (var j = i + 1; j < n; j++)
            {
                if (reduced[(i * n) + j] < -1e-7) found.Add((reduced[(i * n) + j], i, j));
            }
        }

        return found.Order().Take(2 * n).Select(f => (f.A, f.B));
    }

    private double Branch(double root)
    {
        // An edge that costs more than the gap above what is paid is in no shorter tour; all others are taken in, so that the branches
        // need no pricing.
        var (bound, reduced) = relaxation.FullBound();
        var n = problem.Count;
        var gap = tour - bound;
        var live = new List<(int A, int B)>();
        for (var i = 0; i < n; i++)
        {
            for (var j = i + 1; j < n; j++)
            {
                if (reduced[(i * n) + j] <= gap) live.Add((i, j));
            }
        }

        // Too many would only slow the search down.
        if (live.Count > 40 * n) return root;
        relaxation.Add(live);
        var open = new PriorityQueue<Part, (double, int)>();
        open.Enqueue(new Part([], root), (root, 0));
        var (made, least) = (0, tour);
        var applied = new List<int>();
        while (open.TryDequeue(out var part, out _))
        {
            if (part.Bound >= Math.Min(least, Target)) break;
            if (Spent) return Math.Min(least, part.Bound);
            foreach (var edge in applied) relaxation.SetBounds(edge, Least(edge), 1);
            applied.Clear();
            foreach (var (edge, value) in part.Fixed)
            {
                relaxation.SetBounds(edge, value, value);
                applied.Add(edge);
            }

            var (lower, split) = Explore(part.Bound);
            if (lower >= Target) continue;
            if (split < 0)
            {
                // A whole tour shorter than the one known, or the work is spent: the part ends with what it has.
                least = Math.Min(least, lower);
                continue;
            }

            foreach (var value in (double[])[1, 0])
            {
                open.Enqueue(new Part([.. part.Fixed, (split, value)], lower), (lower, ++made));
            }
        }

        return least;
    }

    /// <summary>The bound of the branch set, and the edge to split it at; -1 when it is done.</summary>
    private (double Bound, int Split) Explore(double parent)
    {
        var best = parent;
        for (var round = 0; round < 30; round++)
        {
            var end = relaxation.Solve(work, cancel);
            if (end == LinearEnd.Infeasible) return (double.PositiveInfinity, -1);
            best = Math.Max(best, relaxation.Bound());
            if (best >= Target) return (best, -1);
            if (end == LinearEnd.Stopped || Spent) return (best, -1);
            if (relaxation.Add(CutFinder.Find(relaxation.Support())) == 0) break;
            relaxation.Tidy();
        }

        var values = relaxation.Values();
        var (split, score) = (-1, 0.02);
        for (var e = 0; e < values.Length; e++)
        {
            var middle = Math.Min(values[e], 1 - values[e]);
            var worth = middle * (0.2 + problem.Between(relaxation.Edges[e].A, relaxation.Edges[e].B) / (tour / problem.Count));
            if (middle > 1e-6 && worth > score) (split, score) = (e, worth);
        }

        if (split < 0) split = Array.FindIndex(values, v => v > 1e-6 && v < 1 - 1e-6);
        return (best, split);
    }

    private double Least(int edge) => edge < problem.Forced.Count ? 1 : 0;

    /// <summary>The tours that use some edges and not others.</summary>
    private sealed record Part(IReadOnlyList<(int Edge, double Value)> Fixed, double Bound);
}
