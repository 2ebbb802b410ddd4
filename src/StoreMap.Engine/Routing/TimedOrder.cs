namespace StoreMap.Routing;

/// <summary>Changes an order of groups where that costs less than waiting, detours, or being outside hours: moving short runs and reversing
/// stretches, the first that gains, until none does. The order stays as it is when nothing is gained.</summary>
internal sealed class TimedOrder
{
    private const int LongestMove = 6;

    /// <summary>Timetables made at most from each start, so that the search ends soon on any machine.</summary>
    private const int MostTimetables = 12_000;

    /// <summary>What a minute late weighs in the search, besides what being outside hours does: a way down, and no reason to walk far.</summary>
    private const double LateWeight = 0.1;

    /// <summary>Less is no reason to change an order, minutes.</summary>
    private const double LeastGain = 0.5;

    private readonly GroupWalk walk;
    private readonly TimedStore store;
    private readonly bool closed;
    private readonly CancellationToken cancel;

    private TimedOrder(GroupWalk walk, TimedStore store, RouteRequest request) =>
        (this.walk, this.store, closed, cancel) = (walk, store, request.Closed, request.Budget.Cancel);

    /// <summary>Searches from a known order.</summary>
    /// <param name="walk">The groups.</param>
    /// <param name="store">Their points in time.</param>
    /// <param name="usual">The shortest order found.</param>
    /// <param name="request">Closed or open, cancellation.</param>
    /// <returns>The order, the usual one when no other is better by half a minute.</returns>
    public static GroupOrder Of(GroupWalk walk, TimedStore store, GroupOrder usual, RouteRequest request)
    {
        var search = new TimedOrder(walk, store, request);
        var (excess, least) = (search.Table(usual).Excess, search.Value(usual));
        if (excess < LeastGain) return usual;
        var best = usual;
        foreach (var start in new[] { search.SoonestShut(usual), usual, search.Mirrored(usual) })
        {
            var (order, value) = search.Descend(start);
            if (value < least - LeastGain) (best, least) = (order, value);
        }

        return best;
    }

    private Timetable Table(GroupOrder order) => Timetable.Of(store, walk.Course(order, closed));

    /// <summary>Minutes on foot, for changes of gas and what they weigh like, and what the time of day costs.</summary>
    private double Value(GroupOrder order)
    {
        var table = Table(order);
        return OnFoot(order) + table.Excess + (LateWeight * table.Late);
    }

    private double OnFoot(GroupOrder order)
    {
        var (count, sum) = (order.Order.Length, 0.0);
        for (var i = closed ? 0 : 1; i < count; i++) sum += walk.Cost(order, i == 0 ? count - 1 : i - 1, i);
        return sum / walk.Protocol.WalkingMetresPerSecond / 60;
    }

    private (GroupOrder Order, double Value) Descend(GroupOrder start)
    {
        var (now, value, made) = (start, Value(start), 0);
        for (var (a, quiet) = (0, 0); quiet < now.Order.Length && made < MostTimetables; a = (a + 1) % now.Order.Length, quiet++)
        {
            cancel.ThrowIfCancellationRequested();
            foreach (var next in Around(now, a))
            {
                // What is walked more is never won back when it is more than the time of day costs now.
                if (OnFoot(next) >= value - 1e-9) continue;
                made++;
                if (Value(next) is var then && then >= value - 1e-6) continue;
                (now, value, quiet) = (next, then, -1);
                break;
            }
        }

        return (now, value);
    }

    /// <summary>The orders that move or turn a run which begins at a place, turns kept.</summary>
    private IEnumerable<GroupOrder> Around(GroupOrder now, int a)
    {
        var turn = walk.Ends[now.Order[a]].Turn;
        var reversible = true;
        for (var b = a; b < now.Order.Length && walk.Ends[now.Order[b]].Turn == turn; b++)
        {
            reversible &= walk.Ends[now.Order[b]].Reversible;
            if (reversible) yield return Moved(now, a, b, a - 1, true);
            if (b - a >= LongestMove) continue;
            for (var p = -1; p < now.Order.Length; p++)
            {
                if (p >= a - 1 && p <= b) continue;
                if ((p >= 0 && walk.Ends[now.Order[p]].Turn > turn) || (p + 1 < now.Order.Length && walk.Ends[now.Order[p + 1]].Turn < turn)) continue;
                yield return Moved(now, a, b, p, false);
                if (reversible) yield return Moved(now, a, b, p, true);
            }
        }
    }

    /// <summary>The order with a run taken out and put behind place p, as it is or reversed.</summary>
    private static GroupOrder Moved(GroupOrder now, int a, int b, int p, bool reversed)
    {
        List<int> order = [.. now.Order[..a], .. now.Order[(b + 1)..]];
        List<bool> back = [.. now.Backwards[..a], .. now.Backwards[(b + 1)..]];
        var (run, senses) = (now.Order[a..(b + 1)], now.Backwards[a..(b + 1)]);
        if (reversed)
        {
            Array.Reverse(run);
            Array.Reverse(senses);
            for (var i = 0; i < senses.Length; i++) senses[i] = !senses[i];
        }

        var at = p < a ? p + 1 : p - (b - a);
        order.InsertRange(at, run);
        back.InsertRange(at, senses);
        return new([.. order], [.. back]);
    }

    /// <summary>The groups of any time the other way round.</summary>
    private GroupOrder Mirrored(GroupOrder usual)
    {
        var (first, count) = Any(usual);
        return count == 0 || !usual.Order[first..(first + count)].All(g => walk.Ends[g].Reversible) ? usual : Moved(usual, first, first + count - 1, first - 1, true);
    }

    /// <summary>Of the groups of any time, those whose place shuts soonest first, those that open last behind the rest; else in their order.</summary>
    private GroupOrder SoonestShut(GroupOrder usual)
    {
        var (first, count) = Any(usual);
        int[] places = [.. Enumerable.Range(first, count).OrderBy(i => Rank(usual.Order[i]))];
        var (order, back) = ((int[])usual.Order.Clone(), (bool[])usual.Backwards.Clone());
        for (var i = 0; i < count; i++) (order[first + i], back[first + i]) = (usual.Order[places[i]], usual.Backwards[places[i]]);
        return new(order, back);
    }

    /// <summary>Minutes until a group's place shuts, or, where it is not open yet, a day and the minutes until it opens.</summary>
    private double Rank(int group)
    {
        const double Day = 24 * 60;
        if (store.Hours[walk.Ends[group].First] is not { } hours) return Day;
        var (open, shut) = hours.Where(h => h.To > 0).DefaultIfEmpty((From: 2 * Day, To: 2 * Day)).First();
        return open <= 0 ? Math.Min(Day, shut) : Day + open;
    }

    private (int First, int Count) Any(GroupOrder order)
    {
        var first = Array.FindIndex(order.Order, g => walk.Ends[g].Turn == (int)GroupTurn.Any);
        return first < 0 ? (0, 0) : (first, order.Order.Count(g => walk.Ends[g].Turn == (int)GroupTurn.Any));
    }
}
