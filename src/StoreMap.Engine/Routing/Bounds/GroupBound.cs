namespace StoreMap.Routing;

/// <summary>A bound on walks through groups: each group drawn together to its two ends, which every walk joins, and each turn walked in
/// one go. Any order and sense of groups is allowed for, so it bounds every walk that keeps the groups; what is read on the way in
/// between can only lengthen one.</summary>
internal static class GroupBound
{
    /// <summary>Computes the bound.</summary>
    /// <param name="distances">Between points, row by row; a metric.</param>
    /// <param name="points">Number of points.</param>
    /// <param name="groups">The groups, in one of three turns.</param>
    /// <param name="order">A walk allowed.</param>
    /// <param name="closed">True when the walk returns.</param>
    /// <param name="work">Multiplications allowed.</param>
    /// <param name="budget">Time cap and cancellation.</param>
    /// <returns>The length between groups that no walk can be under; what is walked inside the groups comes on top.</returns>
    public static double Of(double[] distances, int points, TourGroup[] groups, GroupOrder order, bool closed, long work, TourBudget budget)
    {
        List<int> ends = [.. groups.SelectMany(g => g.First == g.Last ? [g.First] : new[] { g.First, g.Last })];
        var place = new Dictionary<int, int>();
        for (var i = 0; i < ends.Count; i++) place[ends[i]] = i;
        var size = ends.Count + (closed ? 0 : 1);
        if (size < 4) return 0;
        var between = new double[size * size];
        for (var i = 0; i < ends.Count; i++)
        {
            for (var j = 0; j < ends.Count; j++) between[(i * size) + j] = distances[(ends[i] * points) + ends[j]];
        }

        List<(int, int)> forced = [];
        foreach (var g in groups.Where(g => g.First != g.Last))
        {
            int a = place[g.First], b = place[g.Last];
            forced.Add((a, b));
            between[(a * size) + b] = between[(b * size) + a] = 0;
        }

        var problem = new BoundProblem(between, size, forced, Turns(groups, place, size, closed));
        var tour = order.Order.SelectMany((g, i) => Nodes(groups[g], order.Backwards[i]).Select(p => place[p])).ToList();
        if (!closed) tour.Add(size - 1);
        return Math.Max(0, CutBound.Of(problem, tour, work, budget.OutOfTime, budget.Cancel));
    }

    private static int[] Nodes(TourGroup group, bool backwards) =>
        group.First == group.Last ? [group.First] : backwards ? [group.Last, group.First] : [group.First, group.Last];

    /// <summary>Each turn is one stretch; so is the first and the last together with the way home of an open walk.</summary>
    private static List<bool[]> Turns(TourGroup[] groups, Dictionary<int, int> place, int size, bool closed)
    {
        var turns = groups.Select(g => g.Turn).Distinct().Order().ToArray();
        var blocks = new List<bool[]>();
        foreach (var turn in turns)
        {
            var inside = new bool[size];
            foreach (var g in groups.Where(g => g.Turn == turn)) inside[place[g.First]] = inside[place[g.Last]] = true;
            blocks.Add(inside);
            if (closed || (turn != turns[0] && turn != turns[^1])) continue;
            var home = (bool[])inside.Clone();
            home[size - 1] = true;
            blocks.Add(home);
        }

        // The border of one stop, or of all but one, is crossed twice anyway.
        return [.. blocks.Where(b => b.Count(x => x) is > 1 and var n && n < size - 1)];
    }
}
