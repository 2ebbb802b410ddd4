namespace StoreMap.Routing;

/// <summary>A group as the search sees it.</summary>
/// <param name="First">Index of its first point.</param>
/// <param name="Last">Index of its last point.</param>
/// <param name="Reversible">True when it may be walked from the last point to the first.</param>
/// <param name="Turn">Groups of a lower turn come before.</param>
internal readonly record struct TourGroup(int First, int Last, bool Reversible, int Turn);

/// <summary>Groups in walking order, each forwards or backwards.</summary>
/// <param name="Order">Each group's index once.</param>
/// <param name="Backwards">Per place in the order: true when walked from its last point to its first.</param>
internal sealed record GroupOrder(int[] Order, bool[] Backwards);

/// <summary>Orders groups that are walked through in one go: reversing stretches and moving short runs until nothing is gained, the
/// senses of an order found exactly by dynamic programming, then small perturbations, kept when shorter (iterated local search).</summary>
internal sealed class GroupTour
{
    private const int LongestMove = 6;
    private const int LongestKick = 8;
    private const int MostKicks = 4;

    // A mended perturbation of some tens of groups costs about as much as forty steps of the search over points.
    private const int PointStepsPerKick = 40;

    private readonly double[] distances;
    private readonly int points;
    private readonly TourGroup[] groups;
    private readonly bool closed;
    private readonly double leastGain = 1e-9;
    private int[] order;
    private bool[] back;

    private GroupTour(double[] distances, int points, IReadOnlyList<TourGroup> groups, bool closed, GroupOrder order, double leastGain)
        : this(distances, points, groups, closed) => (this.order, back, this.leastGain) = ([.. order.Order], [.. order.Backwards], leastGain);

    private GroupTour(double[] distances, int points, IReadOnlyList<TourGroup> groups, bool closed)
    {
        (this.distances, this.points, this.groups, this.closed) = (distances, points, [.. groups], closed);
        (order, back) = ([], new bool[groups.Count]);
    }

    /// <summary>Searches for a short order.</summary>
    /// <param name="distances">Between points, row by row.</param>
    /// <param name="points">Number of points.</param>
    /// <param name="groups">At least one.</param>
    /// <param name="closed">True when the walk returns to its first point.</param>
    /// <param name="budget">Effort, seed, time cap, progress, cancellation.</param>
    /// <returns>The order found, its steps, and whether time cut it short.</returns>
    public static (GroupOrder Order, long Steps, bool CutShort) Run(
        double[] distances, int points, IReadOnlyList<TourGroup> groups, bool closed, TourBudget budget)
    {
        var search = new GroupTour(distances, points, groups, closed);
        search.NearestFirst();
        search.Improve();
        var best = new GroupOrder([.. search.order], [.. search.back]);
        var now = best;
        var shortest = search.Length();
        var random = new SeededRandom(budget.Seed);
        var effort = (budget.Effort ?? TourBudget.DefaultEffort(points)) / PointStepsPerKick;
        for (var step = 0L; step < effort; step++)
        {
            budget.Cancel.ThrowIfCancellationRequested();
            if (budget.OutOfTime?.Invoke() == true) return (best, step * PointStepsPerKick, true);
            if (step % 16 == 0) budget.Progress?.Report((double)step / effort);
            (search.order, search.back) = ([.. now.Order], [.. now.Backwards]);
            // One kick leaves small optima, several in a row the larger ones.
            var kicks = 1 + random.Below(MostKicks);
            var moved = true;
            for (var k = 0; k < kicks && moved; k++) moved = search.Kick(ref random);
            if (!moved) break;
            search.Improve();
            var length = search.Length();
            // Equal length moves on too, so that a plateau is left; the first of equals is the answer, whatever effort comes after it.
            if (length > shortest + 1e-9) continue;
            now = new GroupOrder(search.order, search.back);
            if (length >= shortest - 1e-9) continue;
            (best, shortest) = (now, length);
        }

        budget.Progress?.Report(1);
        return (best, effort * PointStepsPerKick, false);
    }

    /// <summary>Changes a known order as little as needed: only single reversals and moves that each gain more than stated.</summary>
    /// <param name="distances">Between points, row by row.</param>
    /// <param name="points">Number of points.</param>
    /// <param name="groups">The groups.</param>
    /// <param name="closed">True when the walk returns to its first point.</param>
    /// <param name="order">The order to start from.</param>
    /// <param name="leastGain">What a change must gain, above 0.</param>
    public static GroupOrder Touch(double[] distances, int points, IReadOnlyList<TourGroup> groups, bool closed, GroupOrder order, double leastGain)
    {
        var search = new GroupTour(distances, points, groups, closed, order, leastGain);
        while (search.ReverseOne() || search.MoveOne())
        {
        }

        return new(search.order, search.back);
    }

    /// <summary>What an order costs between its groups, the return left out.</summary>
    public static double Length(double[] distances, int points, IReadOnlyList<TourGroup> groups, GroupOrder order) =>
        new GroupTour(distances, points, groups, false, order, 0).Length();

    private int Entry(int place) => back[place] ? groups[order[place]].Last : groups[order[place]].First;

    private int Exit(int place) => back[place] ? groups[order[place]].First : groups[order[place]].Last;

    /// <summary>Walk from one point to another; -1 stands for nothing before the first or after the last of an open walk.</summary>
    private double Walk(int from, int to) => from < 0 || to < 0 ? 0 : distances[(from * points) + to];

    private int ExitBefore(int place) => place > 0 ? Exit(place - 1) : closed ? Exit(order.Length - 1) : -1;

    private int EntryAfter(int place) => place + 1 < order.Length ? Entry(place + 1) : closed ? Entry(0) : -1;

    private double Length()
    {
        var sum = closed && order.Length > 1 ? Walk(Exit(order.Length - 1), Entry(0)) : 0;
        for (var i = 1; i < order.Length; i++) sum += Walk(Exit(i - 1), Entry(i));
        return sum;
    }

    private void NearestFirst()
    {
        List<int> left = [.. Enumerable.Range(0, groups.Length)];
        var chosen = new List<int>();
        while (left.Count > 0)
        {
            var turn = left.Min(g => groups[g].Turn);
            var from = chosen.Count == 0 ? -1 : groups[chosen[^1]].Last;
            var next = left.Where(g => groups[g].Turn == turn).MinBy(g => Walk(from, groups[g].First));
            chosen.Add(next);
            left.Remove(next);
        }

        order = [.. chosen];
        GroupSenses.Choose(distances, points, groups, order, closed, back);
    }

    private void Improve()
    {
        do
        {
            while (ReverseOne() || MoveOne())
            {
            }
        }
        while (GroupSenses.Choose(distances, points, groups, order, closed, back) < 0);
    }

    /// <summary>Reverses a stretch of one turn when that shortens the walk.</summary>
    private bool ReverseOne()
    {
        for (var a = 0; a < order.Length; a++)
        {
            for (var b = a; b < order.Length && groups[order[b]].Turn == groups[order[a]].Turn && groups[order[b]].Reversible; b++)
            {
                if (closed && a == 0 && b == order.Length - 1) continue;
                var (before, after) = (ExitBefore(a), EntryAfter(b));
                var gain = Walk(before, Entry(a)) + Walk(Exit(b), after) - Walk(before, Exit(b)) - Walk(Entry(a), after);
                if (gain <= leastGain) continue;
                Reverse(a, b);
                return true;
            }
        }

        return false;
    }

    /// <summary>Moves a short run elsewhere within its turn, as it is or reversed, when that shortens the walk.</summary>
    private bool MoveOne()
    {
        for (var a = 0; a < order.Length; a++)
        {
            var reversible = true;
            for (var b = a; b < order.Length && b < a + LongestMove && groups[order[b]].Turn == groups[order[a]].Turn; b++)
            {
                reversible &= groups[order[b]].Reversible;
                if (b - a + 2 > order.Length) break;
                var (before, after) = (ExitBefore(a), EntryAfter(b));
                var freed = Walk(before, Entry(a)) + Walk(Exit(b), after) - Walk(before, after);
                if (freed <= leastGain) continue;
                for (var p = 0; p < order.Length; p++)
                {
                    // Between place p and the one after it, both of the run's turn so that no turn is broken.
                    // Behind the last of a closed walk is where its first run stands already.
                    if ((p >= a - 1 && p <= b) || (closed && a == 0 && p == order.Length - 1) || !Fits(p, groups[order[a]].Turn)) continue;
                    var (left, right) = (Exit(p), EntryAfter(p));
                    var forwards = Walk(left, Entry(a)) + Walk(Exit(b), right) - Walk(left, right);
                    var backwards = reversible ? Walk(left, Exit(b)) + Walk(Entry(a), right) - Walk(left, right) : double.PositiveInfinity;
                    if (freed - Math.Min(forwards, backwards) <= leastGain) continue;
                    Move(a, b, p, backwards < forwards);
                    return true;
                }
            }
        }

        return false;
    }

    /// <summary>A run of a turn may stand after place p when what is before is of no later turn and what is behind of no earlier one.</summary>
    private bool Fits(int p, int turn) =>
        groups[order[p]].Turn <= turn && (p + 1 == order.Length || groups[order[p + 1]].Turn >= turn);

    private void Reverse(int a, int b)
    {
        Array.Reverse(order, a, b - a + 1);
        Array.Reverse(back, a, b - a + 1);
        for (var i = a; i <= b; i++) back[i] = !back[i];
    }

    private void Move(int a, int b, int p, bool reversed)
    {
        if (reversed) Reverse(a, b);
        var (run, senses) = (order[a..(b + 1)], back[a..(b + 1)]);
        if (p > b)
        {
            Array.Copy(order, b + 1, order, a, p - b);
            Array.Copy(back, b + 1, back, a, p - b);
            a += p - b;
        }
        else
        {
            Array.Copy(order, p + 1, order, p + 1 + run.Length, a - p - 1);
            Array.Copy(back, p + 1, back, p + 1 + run.Length, a - p - 1);
            a = p + 1;
        }

        run.CopyTo(order, a);
        senses.CopyTo(back, a);
    }

    /// <summary>Swaps two neighbouring stretches of groups that may come at any time and turns any one group about; false when there are
    /// too few.</summary>
    private bool Kick(ref SeededRandom random)
    {
        if (!GroupKick.SwapStretches(order, back, groups, LongestKick, ref random)) return false;
        var turned = random.Below(order.Length);
        if (groups[order[turned]].Reversible) back[turned] = !back[turned];
        return true;
    }
}
