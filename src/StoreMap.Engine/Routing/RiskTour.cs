namespace StoreMap.Routing;

/// <summary>What a risk-first search works on.</summary>
/// <param name="Metres">Between points, row by row.</param>
/// <param name="Seconds">Between points, row by row: walking and what must be done on the way.</param>
/// <param name="Points">Number of points.</param>
/// <param name="Groups">The groups.</param>
/// <param name="Forwards">Each group walked from its first point to its last.</param>
/// <param name="Backwards">Each group walked the other way.</param>
/// <param name="Closed">True when the walk returns.</param>
/// <param name="MostMetres">No walk may be longer.</param>
/// <param name="MostSeconds">No walk may take longer, probing included.</param>
internal sealed record RiskProblem(
    double[] Metres, double[] Seconds, int Points, TourGroup[] Groups, WalkPiece[] Forwards, WalkPiece[] Backwards, bool Closed, double MostMetres,
    double MostSeconds);

/// <summary>Orders groups so that a leak is met as soon as can be expected, within a length: the minimum-latency problem (travelling
/// repairman) with weights. Reversing stretches and moving short runs, each weighed in constant time from sums over stretches, then
/// small perturbations (iterated local search).</summary>
internal sealed class RiskTour
{
    private const int LongestMove = 4;
    private const int LongestKick = 6;

    // A walk that is too long is worse than any that is not, and the more so the longer it is: seconds for the whole weight.
    private const double TooLong = 1e7;
    private const double Excess = 1e4;
    private const double Rounding = 1e-9;

    // A mended perturbation costs about as much as a hundred steps of the search over points.
    private const int PointStepsPerKick = 100;

    private readonly RiskProblem problem;
    private readonly int n;
    private readonly double weight;
    private readonly WalkPiece[] ahead;
    private readonly WalkPiece[] astern;
    private int[] order;
    private bool[] back;

    private RiskTour(RiskProblem problem, GroupOrder start)
    {
        this.problem = problem;
        (order, back, n) = ([.. start.Order], [.. start.Backwards], start.Order.Length);
        (ahead, astern) = (new WalkPiece[n * n], new WalkPiece[n * n]);
        weight = Math.Max(1e-300, problem.Forwards.Sum(p => p.Weight));
    }

    /// <summary>Searches.</summary>
    /// <param name="problem">Groups, walks, weights and the length allowed.</param>
    /// <param name="start">A walk within that length.</param>
    /// <param name="budget">Effort, seed, time cap, progress, cancellation.</param>
    /// <returns>The order found, never later to meet a leak than the start; its steps; whether time cut it short.</returns>
    public static (GroupOrder Order, long Steps, bool CutShort) Run(RiskProblem problem, GroupOrder start, TourBudget budget)
    {
        var search = new RiskTour(problem, start);
        search.Improve();
        var (best, least) = (search.Now(), search.Value());
        // The start walked the other way round is as long; the greedy walk may be too long, and is shortened.
        foreach (var other in new[] { search.Mirrored(start), search.LikeliestFirst() })
        {
            var tried = new RiskTour(problem, other);
            tried.Improve();
            if (tried.Value() < least) (best, least) = (tried.Now(), tried.Value());
        }

        var random = new SeededRandom(budget.Seed);
        var kicks = (budget.Effort ?? TourBudget.DefaultEffort(problem.Points)) / PointStepsPerKick;
        for (var step = 0L; step < kicks; step++)
        {
            budget.Cancel.ThrowIfCancellationRequested();
            if (budget.OutOfTime?.Invoke() == true) return (best, step * PointStepsPerKick, true);
            (search.order, search.back) = ([.. best.Order], [.. best.Backwards]);
            search.Kick(ref random);
            search.Improve();
            var value = search.Value();
            if (value > least) continue;
            (best, least) = (search.Now(), value);
        }

        return (best, kicks * PointStepsPerKick, false);
    }

    /// <summary>Metres and seconds of an order, with the return when closed.</summary>
    public static (double Metres, double Seconds) Sum(RiskProblem problem, GroupOrder order)
    {
        var search = new RiskTour(problem, order);
        return search.Whole(search.Walk());
    }

    private GroupOrder Now() => new([.. order], [.. back]);

    private WalkPiece Walk()
    {
        var walk = WalkPiece.None;
        for (var i = 0; i < n; i++) walk = Join(walk, Piece(i));
        return walk;
    }

    private double Value() => Value(Walk());

    private double Value(in WalkPiece walk)
    {
        var (metres, seconds) = Whole(walk);
        var over = Math.Max(0, metres - problem.MostMetres) + Math.Max(0, seconds - problem.MostSeconds);
        return over <= Rounding ? walk.Latency : walk.Latency + (weight * (TooLong + (Excess * over)));
    }

    private (double Metres, double Seconds) Whole(in WalkPiece walk)
    {
        if (!problem.Closed) return (walk.Metres, walk.Seconds);
        var back = (walk.Last * problem.Points) + walk.First;
        return (walk.Metres + problem.Metres[back], walk.Seconds + problem.Seconds[back]);
    }

    private WalkPiece Piece(int place) => back[place] ? problem.Backwards[order[place]] : problem.Forwards[order[place]];

    private WalkPiece Turned(int place) => back[place] ? problem.Forwards[order[place]] : problem.Backwards[order[place]];

    private WalkPiece Join(in WalkPiece a, in WalkPiece b)
    {
        if (a.First < 0) return b;
        if (b.First < 0) return a;
        var at = (a.Last * problem.Points) + b.First;
        return a.Then(b, problem.Metres[at], problem.Seconds[at]);
    }

    /// <summary>Sums over all stretches, as they are walked and reversed.</summary>
    private void SumUp()
    {
        for (var i = 0; i < n; i++)
        {
            ahead[(i * n) + i] = Piece(i);
            astern[(i * n) + i] = Turned(i);
            for (var j = i + 1; j < n; j++)
            {
                ahead[(i * n) + j] = Join(ahead[(i * n) + j - 1], Piece(j));
                astern[(i * n) + j] = Join(Turned(j), astern[(i * n) + j - 1]);
            }
        }
    }

    private WalkPiece Ahead(int from, int to) => from > to ? WalkPiece.None : ahead[(from * n) + to];

    /// <summary>Takes the best move of each run's first place in turn, until none gains.</summary>
    private void Improve()
    {
        SumUp();
        var value = Value(Ahead(0, n - 1));
        for (var (a, quiet) = (0, 0); quiet < n; a = a + 1 == n ? 0 : a + 1, quiet++)
        {
            if (BestMove(a, value) is not { } move) continue;
            Make(move);
            SumUp();
            value = Value(Ahead(0, n - 1));
            quiet = -1;
        }
    }

    /// <summary>The best move of the runs from a place that gains; it takes the run behind place After, or turns it where it stands when After
    /// is From - 1.</summary>
    private (int From, int To, int After, bool Turn)? BestMove(int a, double value)
    {
        (int From, int To, int After, bool Turn)? best = null;
        var least = value - (1e-9 * Math.Abs(value));
        var reversible = true;
        var turn = problem.Groups[order[a]].Turn;
        for (var b = a; b < n && problem.Groups[order[b]].Turn == turn; b++)
        {
            reversible &= problem.Groups[order[b]].Reversible;
            var rest = Ahead(b + 1, n - 1);
            if (reversible) Try(b, a - 1, Join(Join(Ahead(0, a - 1), astern[(a * n) + b]), rest), true);
            if (b - a >= LongestMove) continue;
            for (var p = a - 2; p >= -1 && problem.Groups[order[p + 1]].Turn == turn; p--) Between(b, p, Ahead(0, p), Join(Ahead(p + 1, a - 1), rest));
            for (var p = b + 1; p < n && problem.Groups[order[p]].Turn == turn; p++)
                Between(b, p, Join(Ahead(0, a - 1), Ahead(b + 1, p)), Ahead(p + 1, n - 1));
        }

        return best;

        void Between(int to, int after, in WalkPiece before, in WalkPiece behind)
        {
            Try(to, after, Join(Join(before, Ahead(a, to)), behind), false);
            if (reversible) Try(to, after, Join(Join(before, astern[(a * n) + to]), behind), true);
        }

        void Try(int to, int after, in WalkPiece walk, bool turned)
        {
            var then = Value(walk);
            if (then >= least) return;
            (least, best) = (then, (a, to, after, turned));
        }
    }

    private void Make((int From, int To, int After, bool Turn) move)
    {
        var (from, to, after, turn) = move;
        int[] run = order[from..(to + 1)];
        bool[] senses = back[from..(to + 1)];
        if (turn)
        {
            Array.Reverse(run);
            Array.Reverse(senses);
            for (var i = 0; i < senses.Length; i++) senses[i] = !senses[i];
        }

        List<int> groups = [.. order[..from], .. order[(to + 1)..]];
        List<bool> backs = [.. back[..from], .. back[(to + 1)..]];
        var at = after < from ? after + 1 : after - run.Length + 1;
        groups.InsertRange(at, run);
        backs.InsertRange(at, senses);
        (order, back) = ([.. groups], [.. backs]);
    }

    /// <summary>Within each turn the group next that has the most weight for its minutes, walk included.</summary>
    private GroupOrder LikeliestFirst()
    {
        List<int> left = [.. order];
        var (chosen, senses) = (new List<int>(), new List<bool>());
        var walk = WalkPiece.None;
        while (left.Count > 0)
        {
            var turn = left.Min(g => problem.Groups[g].Turn);
            var (next, sense) = left.Where(g => problem.Groups[g].Turn == turn).SelectMany(g => problem.Groups[g].Reversible ? [(g, false), (g, true)] : new[] { (g, false) })
                .MaxBy(c => Rate(c.Item1, c.Item2));
            walk = Join(walk, sense ? problem.Backwards[next] : problem.Forwards[next]);
            chosen.Add(next);
            senses.Add(sense);
            left.Remove(next);
        }

        return new([.. chosen], [.. senses]);

        double Rate(int group, bool backwards)
        {
            var piece = backwards ? problem.Backwards[group] : problem.Forwards[group];
            var walked = walk.First < 0 ? 0 : problem.Seconds[(walk.Last * problem.Points) + piece.First];
            return (piece.Weight + 1e-12) / (piece.Seconds + walked + 1);
        }
    }

    /// <summary>Each turn's groups from the last to the first, turned about where they may be.</summary>
    private GroupOrder Mirrored(GroupOrder start)
    {
        var places = Enumerable.Range(0, n).OrderBy(i => problem.Groups[start.Order[i]].Turn).ThenByDescending(i => i).ToArray();
        return new([.. places.Select(i => start.Order[i])], [.. places.Select(i => start.Backwards[i] ^ problem.Groups[start.Order[i]].Reversible)]);
    }

    /// <summary>Swaps two neighbouring stretches of groups of one turn, and turns any one group about.</summary>
    private void Kick(ref SeededRandom random)
    {
        GroupKick.SwapStretches(order, back, problem.Groups, LongestKick, ref random);
        var turned = random.Below(n);
        back[turned] ^= problem.Groups[order[turned]].Reversible;
    }
}
