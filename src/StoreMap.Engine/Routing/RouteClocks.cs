using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Tells a timetable in the store's time.</summary>
internal static class RouteClocks
{
    /// <summary>Shorter waits are rounding, minutes.</summary>
    private const double LeastWait = 0.5;

    /// <summary>Times a measured walk.</summary>
    /// <param name="plan">The store, with its hours and defrosts.</param>
    /// <param name="walk">The walk.</param>
    /// <param name="metres">Walks between its points, in its order, row by row.</param>
    /// <param name="draft">Its groups.</param>
    /// <param name="request">When it begins, protocol, closed or open.</param>
    public static Timetable Time(Plan plan, MeasuredWalk walk, double[] metres, ProbeDraft draft, RouteRequest request)
    {
        var store = TimedStore.Of(plan, walk.Order, metres, draft, request.Protocol, request.Begin!.Value);
        var count = walk.Order.Count;
        double[] step = [.. walk.Read.Select((s, i) => (s - (i == 0 ? 0 : walk.Read[i - 1])) / 60)];
        var inside = (double[])store.Inside.Clone();
        var entered = new HashSet<int>();
        for (var i = 0; i < count; i++)
        {
            if (store.GroupOf[i] >= 0 && entered.Add(store.GroupOf[i])) inside[i] += draft.Groups[store.GroupOf[i]].EntrySeconds / 60;
        }

        return Timetable.Of(store, new([.. Enumerable.Range(0, count)], step, inside, request.Closed && count > 1 ? walk.Legs[^1].Length / request.Protocol.WalkingMetresPerSecond / 60 : 0));
    }

    /// <summary>Tells a timetable.</summary>
    public static RouteClock Of(Timetable table)
    {
        var store = table.Store;
        TimeOnly Clock(double minutes) => store.Begin.Add(TimeSpan.FromSeconds(Math.Round(minutes * 60)));
        string Id(int point) => store.Points[point].Id;
        var end = table.End + store.Protocol.RestoreMinutes + store.Protocol.WriteUpMinutes;
        return new(
            store.Begin, Clock(end), [.. table.Read.Select(Clock)],
            [
                .. table.Defrosts.Select(d => new TimedCheck(
                    d.Kind, d.Window.Circuit.Id, d.Window.Circuit.Defrost!.Kind, Clock(d.Window.From), Clock(d.Window.To), d.At is { } at ? Clock(at) : null,
                    d.After < 0 ? null : Id(table.At[d.After]), [.. d.Points.Select(Id)], d.Metres, d.Minutes)),
            ],
            [.. Visits(table).Select(v => new TimedVisit(v.Kind, v.Of, Id(table.At[v.Place]), Clock(table.Arrive(v.Place)), v.Kind == TimedVisitKind.Wait ? table.Wait(v.Place) : 0))]);
    }

    /// <summary>Entries outside hours.</summary>
    public static int CountOutside(Timetable table) => Visits(table).Count(v => v.Kind == TimedVisitKind.Outside);

    /// <summary>Where the walk enters a place with hours, and again where it has to wait there or falls out of them.</summary>
    private static IEnumerable<(int Place, TimedVisitKind Kind, TimedPlace Of)> Visits(Timetable table)
    {
        (string? Id, TimedVisitKind Kind) before = (null, TimedVisitKind.Met);
        for (var i = 0; i < table.At.Length; i++)
        {
            if (!table.Starts[i]) continue;
            if (table.Store.Places[table.At[i]] is not { Length: > 0 } places)
            {
                before = (null, TimedVisitKind.Met);
                continue;
            }

            var kind = table.IsOutside(i) ? TimedVisitKind.Outside : table.Wait(i) >= LeastWait ? TimedVisitKind.Wait : TimedVisitKind.Met;
            if (kind == TimedVisitKind.Wait || places[0].Id != before.Id || (kind == TimedVisitKind.Outside && before.Kind != TimedVisitKind.Outside)) yield return (i, kind, places[0]);
            before = (places[0].Id, kind);
        }
    }
}
