using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Walking;

namespace StoreMap.Web.Solving;

/// <summary>A store's walk laid out in the worker: planned once, then measured again for every order that a person makes of it.</summary>
internal sealed class WalkBench
{
    private readonly string layout;
    private readonly ProbeDraft draft;
    private readonly IReadOnlyList<ProbePoint> leftOut;
    private readonly WalkingPaths paths;
    private readonly HashSet<string> zeros;
    private (TimeOnly? Begin, Route Route)? planned;

    private WalkBench(string layout)
    {
        this.layout = layout;
        Plan = LayoutDocument.Reread(layout).Plan;
        (draft, paths, leftOut) = EngineWork.InReach(Plan);
        zeros = [.. draft.Points.Where(p => p.Pass == ProbePass.Zero).Select(p => p.Id)];
    }

    public Plan Plan { get; }

    /// <summary>The bench for a layout: the same one as long as it stays the same.</summary>
    public static WalkBench For(string layout, WalkBench? last) => last?.layout == layout ? last : new WalkBench(layout);

    /// <summary>The walk in words, stops and a picture.</summary>
    /// <param name="wish">How it is wanted.</param>
    /// <param name="lengths">The unit in which lengths are shown; null for the plan's.</param>
    public WalkAnswer Answer(WalkWishes wish, LengthUnit? lengths)
    {
        var units = lengths ?? Plan.Units;
        var order = wish.Order;
        string? left = null;
        if (wish.Next.Count > 0)
        {
            // The monitor is zeroed before anything else.
            wish = wish with { Done = [.. zeros.Except([.. wish.Done, .. wish.Next]), .. wish.Done] };
            order = [.. wish.Done, .. wish.Next];
            if (Rest(wish) is { } rest) (order, left) = ([.. order, .. rest.Order], $"After that stop: {WalkText.Takes(rest, units)}");
        }

        var route = Route(order, wish.Begin);
        var p = ScreenMap.DrawWalk(Plan, route, new ScreenOptions { WidthMillimetres = wish.Width });
        return new WalkAnswer(
            new Picture("", p.Sheet.Svg, p.Sheet.WidthMillimetres, p.Sheet.HeightMillimetres, p.X, p.Y, p.Factor), Stops(route), left ?? WalkText.Takes(route, units),
            WalkText.Clock(route, id => Say.Title(Plan, route.Points.First(p => p.Id == id))), WalkText.LeftOut(leftOut, Plan, units));
    }

    /// <summary>The planned walk, or the same points in another order.</summary>
    /// <param name="order">Ids; unknown ones are passed over, points not named come last, and the zero first. Empty plans.</param>
    /// <param name="begin">Store time of sign-in; null leaves time of day out.</param>
    public Route Route(IReadOnlyList<string> order, TimeOnly? begin)
    {
        var request = new RouteRequest { Budget = EngineWork.RouteBudget, Begin = begin };
        if (planned is not { } last || last.Begin != begin) planned = last = (begin, RoutePlanner.Plan(Plan, paths, draft, request) with { LeftOut = leftOut });
        if (order.Count == 0) return last.Route;
        var known = last.Route.Order.ToHashSet();
        List<string> ids = [.. order.Where(known.Contains).Distinct()];
        ids.AddRange(last.Route.Order.Except(ids).ToList());
        ids = [.. ids.OrderBy(id => !zeros.Contains(id))];
        return ids.SequenceEqual(last.Route.Order) ? last.Route : RoutePlanner.Along(Plan, paths, draft, last.Route.Points, ids, request) with { LeftOut = leftOut };
    }

    // What is left beyond the stop where one stands; null when nothing is. Every saving is taken, since one goes on from another place.
    private Route? Rest(WalkWishes wish)
    {
        var route = Route(wish.Order, wish.Begin);
        List<string> behind = [.. wish.Done, .. wish.Next];
        return route.Order.All(behind.Contains) ? null : RouteReplanner.Replan(Plan, paths, draft, EarlierRoute.Of(route), new ReplanRequest
        {
            At = route.Points.First(p => p.Id == wish.Next[^1]).Stand, Done = behind, LeastSaving = 0,
        });
    }

    private List<WalkStop> Stops(Route route)
    {
        var group = draft.Groups.SelectMany(g => g.Points.Select(p => (p, g.Id))).ToDictionary(x => x.p, x => x.Id);
        var points = route.Points.ToDictionary(p => p.Id);
        var stops = new List<WalkStop>();
        foreach (var (i, id) in route.Order.Index())
        {
            if (stops.Count > 0 && stops[^1].Id == group[id]) stops[^1] = stops[^1] with { Points = [.. stops[^1].Points, id] };
            else stops.Add(new WalkStop(group[id], Title(points[id], draft.Groups.First(g => g.Id == group[id])), [id], route.Clock is { } clock ? WalkText.Time(clock.Read[i]) : null, zeros.Contains(id)));
        }

        // A group that was torn apart counts as several stops.
        return [.. stops.GroupBy(s => s.Id).SelectMany(g => g.Select((s, i) => i == 0 ? s : s with { Id = FormattableString.Invariant($"{s.Id}+{i}") })).OrderBy(s => IndexOf(route.Order, s.Points[0]))];
    }

    private string Title(ProbePoint first, ProbeGroup group) => group.Fixtures.Count > 1
        ? string.Join(", ", group.Fixtures.Select(f => Plan.FindFixture(f)?.Tag ?? f))
        : group.Fixtures.Count == 1 && Plan.FindFixture(group.Fixtures[0]) is { } fixture ? Say.Fixture(fixture) : Say.Title(Plan, first);

    private static int IndexOf(IReadOnlyList<string> list, string id)
    {
        for (var i = 0; i < list.Count; i++)
        {
            if (list[i] == id) return i;
        }

        return -1;
    }
}
