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
        Plan plan, WalkingPaths paths, IReadOnlyList<ProbePoint> order, ProbeDraft draft, RouteRequest request, long steps, bool cutShort,
        double? groupedBound = null)
    {
        var walked = Walked.Between(paths, order, request.Budget.Cancel);
        var points = order.Select((p, i) => p with { Stand = walked.Matrix.Standings[i].At }).ToDictionary(p => p.Id);
        var count = order.Count;
        var legs = new List<RouteLeg>();
        for (var i = 0; i + 1 < count + (request.Closed && count > 1 ? 1 : 0); i++)
        {
            request.Budget.Cancel.ThrowIfCancellationRequested();
            var path = walked.Matrix.Path(i, (i + 1) % count)!;
            legs.Add(new RouteLeg(order[i].Id, order[(i + 1) % count].Id, path.Corners, path.Length));
        }

        var length = legs.Sum(l => l.Length);
        var any = Math.Min(length, Bound(walked.Distances, order, request));
        return new Route
        {
            Points = [.. draft.Points.Select(p => points[p.Id])],
            Order = [.. order.Select(p => p.Id)],
            Closed = request.Closed,
            Legs = legs,
            Length = length,
            LowerBound = Math.Max(any, Math.Min(groupedBound ?? 0, length)),
            BoundKeepsGroups = groupedBound is not null,
            AnyOrderBound = any,
            Minutes = MinutesOf(plan, order, draft, request.Protocol, length),
            Effort = steps,
            CutShort = cutShort,
            Warnings = [.. order.Select((p, i) => Moved(plan, p, walked.Matrix.Standings[i].Moved, paths.Floor.ClearanceMetres)).OfType<Problem>()],
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
            outOfTime: request.Budget.OutOfTime, cancel: request.Budget.Cancel);

    private static RouteMinutes MinutesOf(Plan plan, IReadOnlyList<ProbePoint> order, ProbeDraft draft, Protocol protocol, double length) => new(
        Walking: length / protocol.WalkingMetresPerSecond / 60,
        Probing: order.Sum(p => p.DwellSeconds) / 60,
        Handling: (order.Sum(p => protocol.HandlingSeconds(plan, p)) + draft.Groups.Sum(g => g.EntrySeconds)) / 60,
        Fixed: draft.Groups.Count == 0 ? 0
            : protocol.SignInMinutes + protocol.WarmUpMinutes + (protocol.ZeroMinutes * (1 + GasChanges(order, draft)))
                + protocol.RestoreMinutes + protocol.WriteUpMinutes);

    /// <summary>How often the monitor is set to another gas on the way; each time it is zeroed again.</summary>
    private static int GasChanges(IReadOnlyList<ProbePoint> order, ProbeDraft draft)
    {
        var gasOf = draft.Groups.SelectMany(g => g.Points.Select(p => (p, g.Gas))).ToDictionary(x => x.p, x => x.Gas);
        var gases = order.Select(p => gasOf[p.Id]).Where(g => g is not null).ToList();
        return gases.Zip(gases.Skip(1)).Count(pair => pair.First != pair.Second);
    }
}
