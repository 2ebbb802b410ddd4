using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>How a defrost meets a walk, in minutes after the begin and by index of point.</summary>
/// <param name="Window">The defrost.</param>
/// <param name="Kind">How it meets the walk.</param>
/// <param name="At">When probing begins; null when missed.</param>
/// <param name="After">Place in the order after which the walk is left; -1 unless a detour.</param>
/// <param name="Points">Points probed in it, in order.</param>
/// <param name="Metres">How much longer the walk gets.</param>
/// <param name="Minutes">How many minutes more, waiting included.</param>
/// <param name="Weight">What is missed of it weighs so many minutes.</param>
internal sealed record DefrostMet(
    DefrostWindow Window, TimedCheckKind Kind, double? At, int After, IReadOnlyList<int> Points, double Metres, double Minutes, double Weight);

/// <summary>Fits checks into defrosts that stop the fans: on the way where the walk comes by, else by leaving it between two groups.</summary>
internal sealed class DefrostChecks
{
    /// <summary>What a defrost not used weighs against minutes, all of it; still air is worth half an hour's walk. Judgement.</summary>
    private const double Missed = 30;

    private readonly Timetable table;
    private readonly TimedStore store;
    private readonly int[] places;
    private int last;

    private DefrostChecks(Timetable table)
    {
        (this.table, store) = (table, table.Store);
        // After a check the walk is gone on with, so that it is left between two groups, and not between a background and what it is read for.
        places = [.. Enumerable.Range(0, Math.Max(0, table.At.Length - 1)).Where(i => table.Starts[i + 1] && store.Points[table.At[i]].Pass != ProbePass.Background)];
    }

    /// <summary>Fits the checks in and moves the timetable accordingly.</summary>
    public static List<DefrostMet> Fit(Timetable table)
    {
        if (table.Store.Windows.Count == 0 || table.At.Length == 0) return [];
        var checks = new DefrostChecks(table);
        return [.. table.Store.Windows.Select(checks.Check).OfType<DefrostMet>()];
    }

    private DefrostMet? Check(DefrostWindow window)
    {
        var (order, read) = (table.At, table.Read);
        int[] points = [.. Enumerable.Range(0, order.Length).Where(i => store.Circuits[order[i]] == window.Circuit.Id)];
        if (points.Length == 0 || window.From > read[^1] || window.To < read[0]) return null;
        double Weight(int probed) => Missed * (points.Length - probed) / points.Length;

        int[] met = [.. points.Where(i => read[i] >= window.Still && read[i] <= window.To)];
        if (met.Length * 2 >= points.Length)
        {
            var at = Math.Max(window.Still, read[met[0]] - (store.Points[order[met[0]]].DwellSeconds / 60));
            return new(window, TimedCheckKind.OnTheWay, at, -1, [.. met.Select(i => order[i])], 0, 0, Weight(met.Length));
        }

        // Left in time and waited, or left after the next group and late: whichever probes more, then costs less.
        var first = order[points[0]];
        var inTime = Math.Max(last, Array.FindLastIndex(places, i => table.Leave(i) + store.Minutes(table.Standing[i], first) <= window.Still));
        var best = new[] { inTime, inTime + 1 }.Where(k => k < places.Length).Select(k => Detour(k, points, window))
            .Where(d => d.Probed.Count > 0).OrderByDescending(d => d.Probed.Count).ThenBy(d => d.Minutes).FirstOrDefault();
        if (best.Probed is null) return new(window, TimedCheckKind.Missed, null, -1, [], 0, 0, Missed);
        // Checks follow each other along the walk: a later one goes no further back.
        last = best.Place;
        table.Detour(places[best.Place], best.Probed[^1], best.Minutes);
        return new(window, TimedCheckKind.Detour, best.At, places[best.Place], best.Probed, best.Metres, best.Minutes, Weight(best.Probed.Count));
    }

    /// <summary>Leaving the walk after a place for as many of the points as the still air and their hours last, and coming back to the next.</summary>
    private (int Place, double At, List<int> Probed, double Metres, double Minutes) Detour(int place, int[] points, DefrostWindow window)
    {
        var (from, next, leave) = (table.Standing[places[place]], table.At[places[place] + 1], table.Leave(places[place]));
        var first = table.At[points[0]];
        var at = Math.Max(window.Still, leave + store.Minutes(from, first));
        var probed = new List<int>();
        var (now, metres) = (at, store.Metres(from, first));
        foreach (var p in points.Select(i => table.At[i]))
        {
            var walk = probed.Count == 0 ? 0 : store.Metres(probed[^1], p);
            var reached = now + (walk / store.Protocol.WalkingMetresPerSecond / 60);
            if (reached + store.Inside[p] > window.To || !table.IsOpen(p, reached, reached + store.Inside[p])) break;
            probed.Add(p);
            (now, metres) = (reached + store.Inside[p], metres + walk);
        }

        if (probed.Count == 0) return (place, at, probed, 0, 0);
        metres += store.Metres(probed[^1], next) - store.Metres(from, next);
        return (place, at, probed, metres, now + store.Minutes(probed[^1], next) - leave - store.Minutes(from, next));
    }
}
