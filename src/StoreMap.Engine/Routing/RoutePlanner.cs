using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Puts probe points into a short, walkable order and says how long the walk takes. Method: docs/routing.md.</summary>
public static class RoutePlanner
{
    /// <summary>A search in time is done this much before a place shuts, minutes, for the few metres to backgrounds that it leaves out.</summary>
    private const double Margin = 2;

    /// <summary>Plans the walk over a draft: groups are never torn, a background is read before its department, the zero comes first and
    /// aerosol rooms last.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="paths">Walks on its free floor.</param>
    /// <param name="draft">Points and groups.</param>
    /// <param name="request">Closed or open, protocol, budget.</param>
    /// <exception cref="RefusedInputException">Points that can't be reached, each by name.</exception>
    public static Route Plan(Plan plan, WalkingPaths paths, ProbeDraft draft, RouteRequest request)
    {
        draft = WorkHours.Turns(plan, paths, draft, request);
        var walk = GroupWalk.Of(plan, paths, draft, request);
        var (found, steps, cutShort) = GroupTour.Run(walk.Costs, walk.Points.Count, walk.Ends, request.Closed, request.Budget);
        var bound = Bound(walk, walk.Distances, found, request);
        // Walking and changes of gas together; the rest of the minutes is the same in any order.
        var timed = (walk.WithChanges() is { } costs ? Bound(walk, costs, found, request) : bound) / request.Protocol.WalkingMetresPerSecond / 60;
        var weight = Weigh(walk, found, request.Closed);
        var weighed = new RouteWeighed(weight, Math.Clamp(Bound(walk, walk.Costs, found, request) - walk.Inside, 0, weight));
        var measured = Measured(found);
        var isRisk = request.Risk is { } weights && measured.ExpectedMinutes(weights) is not null;
        TimedChange? change = null;
        if (request.Begin is { } begin && !isRisk) (measured, change) = InTime(begin);
        if (request.Keep is { } earlier)
        {
            var kept = Measured(KeptOrder.Of(walk, earlier));
            var (chosen, outcome) = Kept(kept, measured, request, Excess);
            return RouteAssembly.Of(plan, paths, chosen, draft, request, steps, cutShort, bound, timed).Changed(chosen == measured ? change : null) with { Kept = outcome };
        }

        if (!isRisk) return RouteAssembly.Of(plan, paths, measured, draft, request, steps, cutShort, bound, timed).Changed(change) with { Weighed = change is null ? weighed : null };
        var first = RiskFirst.Of(plan, paths, draft, request, walk, found, measured);
        return RouteAssembly.Of(plan, paths, first.Walk, draft, request, steps + first.Steps, cutShort || first.CutShort, bound, timed) with { Risk = first.Gain };

        MeasuredWalk Measured(GroupOrder order) => MeasuredWalk.Of(plan, paths, walk.OrderOf(order), draft, request);

        Timetable Timed(MeasuredWalk m) => RouteClocks.Time(plan, m, Walked.Between(paths, m.Order, request.Budget.Cancel).Distances, draft, request);

        double Excess(MeasuredWalk m) => request.Begin is null ? 0 : Timed(m).Excess;

        // The shortest walk, or another where that costs less than its waits, its detours for defrosts, and being outside hours.
        (MeasuredWalk Walk, TimedChange? Change) InTime(TimeOnly from)
        {
            var store = TimedStore.Of(plan, walk.Points, walk.Distances, draft, request.Protocol, from, Margin);
            if (!store.Matters || TimedOrder.Of(walk, store, found, request) is var order && order == found) return (measured, null);
            var other = Measured(order);
            var (usual, then) = (Timed(measured), Timed(other));
            // The search leaves the few metres to backgrounds out; the whole walk decides.
            return other.Minutes.Total + then.Excess < measured.Minutes.Total + usual.Excess
                ? (other, new TimedChange(other.Length - measured.Length, usual.End - then.End, RouteClocks.CountOutside(usual))) : (measured, null);
        }
    }

    /// <summary>Measures a planned walk's points in an order that a person made: no search, no bounds.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="paths">Walks on its free floor.</param>
    /// <param name="draft">Points and groups.</param>
    /// <param name="points">The points of a walk planned over it, in any order: backgrounds stay where that walk reads them.</param>
    /// <param name="order">Ids of all of them, each once; groups may be torn.</param>
    /// <param name="request">Closed or open, protocol, time to begin.</param>
    /// <exception cref="RefusedInputException">Points that can't be reached, each by name.</exception>
    /// <exception cref="ArgumentException">The order does not name each point once.</exception>
    public static Route Along(Plan plan, WalkingPaths paths, ProbeDraft draft, IReadOnlyList<ProbePoint> points, IReadOnlyList<string> order, RouteRequest request)
    {
        var byId = points.ToDictionary(p => p.Id);
        if (order.Count != byId.Count || order.Distinct().Count() != byId.Count || !order.All(byId.ContainsKey))
            throw new ArgumentException("The order must name each point once.", nameof(order));
        var unbounded = request with { Budget = request.Budget with { BoundWork = 0 } };
        return RouteAssembly.Of(plan, paths, MeasuredWalk.Of(plan, paths, [.. order.Select(id => byId[id])], draft, unbounded), draft, unbounded, 0, false, quick: request.Begin is null);
    }

    /// <summary>Plans a walk over the user's own points alone: no protocol points, no groups.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="paths">Walks on its free floor.</param>
    /// <param name="points">At least one.</param>
    /// <param name="request">Closed or open, start, budget.</param>
    /// <exception cref="RefusedInputException">Points that can't be reached, or an unknown start.</exception>
    public static Route Over(Plan plan, WalkingPaths paths, IReadOnlyList<ProbePoint> points, RouteRequest request)
    {
        var walked = Walked.Between(paths, points, request.Budget.Cancel);
        var tour = TourSearch.Run(walked.Distances, points.Count, Ends(points, request), request.Budget);
        var draft = new ProbeDraft(points, [], [], []);
        var measured = MeasuredWalk.Of(plan, paths, [.. tour.Order.Select(i => points[i])], draft, request);
        RouteKept? outcome = null;
        if (request.Keep is { } earlier)
        {
            var walk = GroupWalk.Of(plan, paths, Singles(points, request.Start), request);
            (measured, outcome) = Kept(MeasuredWalk.Of(plan, paths, walk.OrderOf(KeptOrder.Of(walk, earlier)), draft, request), measured, request, _ => 0);
        }

        return RouteAssembly.Of(plan, paths, measured, draft, request, tour.Steps, tour.CutShort) with { Kept = outcome };
    }

    private static double Weigh(GroupWalk walk, GroupOrder order, bool closed) =>
        GroupTour.Length(walk.Costs, walk.Points.Count, walk.Ends, order) + (closed && order.Order.Length > 1 ? walk.Cost(order, order.Order.Length - 1, 0) : 0);

    private static double Bound(GroupWalk walk, double[] costs, GroupOrder found, RouteRequest request) => request.Budget.BoundWork == 0 ? 0 : walk.Inside + GroupBound.Of(
        costs, walk.Points.Count, walk.Ends, found, request.Closed, request.Budget.BoundWork ?? LowerBound.DefaultWork(walk.Groups.Count), request.Budget);

    private static Route Changed(this Route route, TimedChange? change) => change is null ? route : route with { Clock = route.Clock! with { Change = change } };

    /// <summary>The earlier order, unless the new one saves more than the stated share of its minutes, with what the time of day costs each.</summary>
    private static (MeasuredWalk Walk, RouteKept Outcome) Kept(MeasuredWalk earlier, MeasuredWalk found, RouteRequest request, Func<MeasuredWalk, double> excess)
    {
        var saving = earlier.Minutes.Total + excess(earlier) - found.Minutes.Total - excess(found);
        var keep = saving <= request.LeastSaving * earlier.Minutes.Total;
        // The same walk turned round differs by rounding.
        return (keep ? earlier : found, new RouteKept(keep, saving > 1e-9 ? saving : 0, request.LeastSaving));
    }

    /// <summary>Own points as groups of one, the start before all others.</summary>
    private static ProbeDraft Singles(IReadOnlyList<ProbePoint> points, string? start) => new(
        points, [.. points.Select(p => new ProbeGroup { Id = p.Id, Points = [p.Id], Turn = p.Id == start ? GroupTurn.First : GroupTurn.Any })], [], []);

    /// <summary>The ends that a request over own points stands for.</summary>
    internal static TourEnds Ends(IReadOnlyList<ProbePoint> points, RouteRequest request)
    {
        if (request.Start is null) return request.Closed ? TourEnds.Closed : TourEnds.Open;
        for (var i = 0; i < points.Count; i++)
        {
            if (points[i].Id == request.Start) return request.Closed ? new TourEnds(true, i, null) : TourEnds.From(i);
        }

        throw new RefusedInputException([new Problem(Severity.Error, null, request.Start, "start", request.Start, "known-start",
            $"There is no point {request.Start} to start from. Name one of the points of the list.")]);
    }
}
