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
        var byId = draft.Points.ToDictionary(p => p.Id);
        // Backgrounds of open departments are read on the way in, so only what is walked to takes part in the search.
        var onTheWay = draft.Departments.Where(d => d.Groups.Count > 0 && byId[d.Background].Room is null).ToDictionary(d => d.Background);
        List<ProbeGroup> groups = [.. draft.Groups.Where(g => !g.Points.All(onTheWay.ContainsKey))];
        List<ProbePoint> points = [.. groups.SelectMany(g => g.Points).Select(id => byId[id])];
        var walked = Walked.Between(paths, points, request.Budget.Cancel);
        var index = points.Select((p, i) => (p.Id, i)).ToDictionary(x => x.Id, x => x.i);
        TourGroup[] ends = [.. groups.Select(g => new TourGroup(index[g.Points[0]], index[g.Points[^1]], g.Reversible, (int)g.Turn))];
        var (found, steps, cutShort) = GroupTour.Run(walked.Distances, points.Count, ends, request.Closed, request.Budget);
        var inside = groups.Sum(g => g.Points.Zip(g.Points.Skip(1)).Sum(p => walked.Matrix[index[p.First], index[p.Second]]));
        var bound = inside + GroupBound.Of(
            walked.Distances, points.Count, ends, found, request.Closed, LowerBound.DefaultWork(groups.Count), request.Budget);
        var order = new List<ProbePoint>();
        foreach (var group in RoomsFirst(found, groups, draft.Departments, byId))
        {
            var inOrder = group.Backwards ? group.Group.Points.Reverse() : group.Group.Points;
            foreach (var id in inOrder)
            {
                var entered = draft.Departments.FirstOrDefault(d => onTheWay.ContainsKey(d.Background) && d.Groups.Contains(group.Group.Id));
                if (entered is not null && onTheWay.Remove(entered.Background))
                    order.Add(ProbePlanner.AtEntry(plan, byId[entered.Background], byId[id], request.Protocol));
                order.Add(byId[id]);
            }
        }

        return RouteAssembly.Of(plan, paths, order, draft, request, steps, cutShort, bound);
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
        return RouteAssembly.Of(plan, paths, [.. tour.Order.Select(i => points[i])], draft, request, tour.Steps, tour.CutShort);
    }

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

    /// <summary>A room's background moved to just before the first of its groups, where it costs next to nothing.</summary>
    private static List<(ProbeGroup Group, bool Backwards)> RoomsFirst(
        GroupOrder found, List<ProbeGroup> groups, IReadOnlyList<ProbeDepartment> departments, Dictionary<string, ProbePoint> byId)
    {
        List<(ProbeGroup Group, bool Backwards)> order = [.. found.Order.Select((g, i) => (groups[g], found.Backwards[i]))];
        foreach (var room in departments.Where(d => d.Groups.Count > 0 && byId[d.Background].Room is not null))
        {
            var at = order.FindIndex(g => g.Group.Points.Contains(room.Background));
            var first = order.FindIndex(g => room.Groups.Contains(g.Group.Id));
            if (at < 0 || first < 0 || at < first) continue;
            var background = order[at];
            order.RemoveAt(at);
            order.Insert(first, background);
        }

        return order;
    }
}
