using System.Globalization;
using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Makes the route of an order: feet on free floor, legs, length, bound and minutes.</summary>
internal static class RouteAssembly
{
    /// <summary>A move shorter than this is rounding, metres.</summary>
    private const double Unmoved = 1e-6;

    public static Route Of(
        Plan plan, WalkingPaths paths, MeasuredWalk walk, ProbeDraft draft, RouteRequest request, long steps, bool cutShort,
        double? groupedBound = null, double? timedBound = null, bool quick = false)
    {
        var points = walk.Order.ToDictionary(p => p.Id);
        var metres = quick ? null : Walked.Between(paths, walk.Order, request.Budget.Cancel).Distances;
        var any = metres is null || request.Budget.BoundWork == 0 ? 0 : Math.Min(walk.Length, Bound(metres, walk.Order, request));
        var route = new Route
        {
            Points = [.. draft.Points.Select(p => points[p.Id])],
            Order = [.. walk.Order.Select(p => p.Id)],
            Closed = request.Closed,
            Legs = walk.Legs,
            Length = walk.Length,
            LowerBound = Math.Max(any, Math.Min(groupedBound ?? 0, walk.Length)),
            BoundKeepsGroups = groupedBound is not null,
            AnyOrderBound = any,
            Minutes = walk.Minutes,
            MinutesLowerBound = timedBound is { } timed
                ? Math.Min(walk.Minutes.Total, walk.Minutes.Total - walk.Minutes.Walking - (walk.GasChanges.Count * request.Protocol.ZeroMinutes) + timed) : null,
            FirstGas = walk.FirstGas,
            GasChanges = [.. walk.GasChanges.Select(c => new GasChange(walk.Order[c.Before].Id, c.Gas, request.Protocol.ZeroMinutes))],
            Effort = steps,
            CutShort = cutShort,
            Warnings = [.. walk.Order.Select((p, i) => Moved(plan, p, walk.Moved[i], paths.Floor.ClearanceMetres)).OfType<Problem>()],
        };
        return route with
        {
            Clock = request.Begin is not null && metres is not null && draft.Groups.Count > 0 ? RouteClocks.Of(RouteClocks.Time(plan, walk, metres, draft, request)) : null,
            Forecast = request.ExpectedHits is { } hits ? Forecast.Of(walk.Minutes, hits, request.Pace, request.Protocol) : null,
        };
    }

    /// <summary>A warning, in the layout's unit, where the feet can't stand as drafted. An entrance lies on the wall, so that keeping clear
    /// of it is no news.</summary>
    private static Problem? Moved(Plan plan, ProbePoint point, double moved, double clearance)
    {
        if (moved < Unmoved || (point.Pass == ProbePass.Zero && moved <= (clearance * 1.5) + Unmoved)) return null;
        var length = plan.Units.FromMetres(moved).ToString(plan.Units == LengthUnit.Millimetre ? "0" : "0.##", CultureInfo.InvariantCulture);
        return new(Severity.Warning, null, point.Id, null, null, "point-moved",
            $"{point.Id} is not on free floor; the feet stand {length} {plan.Units.Symbol()} from it.");
    }

    private static double Bound(double[] distances, IReadOnlyList<ProbePoint> order, RouteRequest request) =>
        LowerBound.Of(distances, order.Count, RoutePlanner.Ends(order, request), [.. Enumerable.Range(0, order.Count)],
            request.Budget.BoundWork, request.Budget.OutOfTime, request.Budget.Cancel);
}
