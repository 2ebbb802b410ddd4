using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Puts probe points into a short, walkable order and says how long the walk takes. Method: docs/routing.md.</summary>
public static class RoutePlanner
{
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
        var measured = MeasuredWalk.Of(plan, paths, walk.OrderOf(found), draft, request);
        if (request.Keep is { } earlier)
        {
            var kept = MeasuredWalk.Of(plan, paths, walk.OrderOf(KeptOrder.Of(walk, earlier)), draft, request);
            var (chosen, outcome) = Kept(kept, measured, request);
            return RouteAssembly.Of(plan, paths, chosen, draft, request, steps, cutShort, bound, timed) with { Kept = outcome };
        }

        if (request.Risk is not { } weights || measured.ExpectedMinutes(weights) is null)
            return RouteAssembly.Of(plan, paths, measured, draft, request, steps, cutShort, bound, timed);
        var first = RiskFirst.Of(plan, paths, draft, request, walk, found, measured);
        return RouteAssembly.Of(plan, paths, first.Walk, draft, request, steps + first.Steps, cutShort || first.CutShort, bound, timed) with { Risk = first.Gain };
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
            (measured, outcome) = Kept(MeasuredWalk.Of(plan, paths, walk.OrderOf(KeptOrder.Of(walk, earlier)), draft, request), measured, request);
        }

        return RouteAssembly.Of(plan, paths, measured, draft, request, tour.Steps, tour.CutShort) with { Kept = outcome };
    }

    private static double Bound(GroupWalk walk, double[] costs, GroupOrder found, RouteRequest request) => walk.Inside + GroupBound.Of(
        costs, walk.Points.Count, walk.Ends, found, request.Closed, request.Budget.BoundWork ?? LowerBound.DefaultWork(walk.Groups.Count), request.Budget);

    /// <summary>The earlier order, unless the new one saves more than the stated share of its minutes.</summary>
    private static (MeasuredWalk Walk, RouteKept Outcome) Kept(MeasuredWalk earlier, MeasuredWalk found, RouteRequest request)
    {
        var saving = earlier.Minutes.Total - found.Minutes.Total;
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
