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
    private readonly WalkingPaths paths;
    private Route? planned;

    private WalkBench(string layout)
    {
        this.layout = layout;
        Plan = LayoutDocument.Parse(layout).Plan;
        draft = ProbePlanner.Draft(Plan, new Protocol());
        paths = new WalkingPaths(FreeFloor.Build(Plan, EngineWork.ClearanceMetres), threads: 1);
    }

    public Plan Plan { get; }

    /// <summary>The bench for a layout: the same one as long as it stays the same.</summary>
    public static WalkBench For(string layout, WalkBench? last) => last?.layout == layout ? last : new WalkBench(layout);

    /// <summary>The walk in words, stops and a picture.</summary>
    /// <param name="order">As in <see cref="Route"/>.</param>
    /// <param name="width">Of the picture, millimetres.</param>
    /// <param name="lengths">The unit in which lengths are shown; null for the plan's.</param>
    public WalkAnswer Answer(string order, double width, LengthUnit? lengths)
    {
        var route = Route(order);
        var p = ScreenMap.DrawWalk(Plan, route, new ScreenOptions { WidthMillimetres = width });
        var m = route.Minutes;
        return new WalkAnswer(
            new Picture("", p.Sheet.Svg, p.Sheet.WidthMillimetres, p.Sheet.HeightMillimetres, p.X, p.Y, p.Factor), Stops(route),
            FormattableString.Invariant($"{route.Order.Count} points, {Rough(lengths ?? Plan.Units, route.Length)} on foot, about {m.Total:0} min: {m.Walking:0} walking, {m.Probing:0} probing, {m.Handling:0} doors and covers, {m.Fixed:0} sign-in to write-up."));
    }

    /// <summary>The planned walk, or the same points in another order.</summary>
    /// <param name="order">Ids parted by spaces; unknown ones are passed over, points not named come last. Empty plans.</param>
    public Route Route(string order)
    {
        planned ??= RoutePlanner.Plan(Plan, paths, draft, new RouteRequest { Budget = EngineWork.RouteBudget });
        if (order.Length == 0) return planned;
        var points = planned.Points.ToDictionary(p => p.Id);
        List<string> ids = [.. order.Split(' ').Where(points.ContainsKey).Distinct()];
        ids.AddRange(planned.Order.Except(ids).ToList());
        if (ids.SequenceEqual(planned.Order)) return planned;
        var legs = ids.Zip(planned.Closed ? ids.Skip(1).Append(ids[0]) : ids.Skip(1), (a, b) => Leg(points[a], points[b])).ToList();
        var length = legs.Sum(l => l.Length);
        var changes = GasChanges(ids);
        var more = changes.Sum(c => c.Minutes) - planned.GasChanges.Sum(c => c.Minutes);
        var minutes = planned.Minutes with { Walking = planned.Minutes.Walking * length / planned.Length, Fixed = planned.Minutes.Fixed + more };
        return planned with { Order = ids, Legs = legs, Length = length, GasChanges = changes, Minutes = minutes };
    }

    private List<GasChange> GasChanges(List<string> ids)
    {
        var gasOf = draft.Groups.SelectMany(g => g.Points.Select(p => (p, g.Gas))).ToDictionary(x => x.p, x => x.Gas);
        var changes = new List<GasChange>();
        string? set = null;
        foreach (var id in ids)
        {
            if (gasOf.GetValueOrDefault(id) is not { } gas || gas == set) continue;
            if (set is not null) changes.Add(new GasChange(id, gas, new Protocol().ZeroMinutes));
            set = gas;
        }

        return changes;
    }

    private RouteLeg Leg(ProbePoint a, ProbePoint b)
    {
        var path = paths.Path(a.Stand, b.Stand)!;
        return new RouteLeg(a.Id, b.Id, path.Corners, path.Length);
    }

    private List<WalkStop> Stops(Route route)
    {
        var group = draft.Groups.SelectMany(g => g.Points.Select(p => (p, g.Id))).ToDictionary(x => x.p, x => x.Id);
        var points = route.Points.ToDictionary(p => p.Id);
        var stops = new List<WalkStop>();
        foreach (var id in route.Order)
        {
            if (stops.Count > 0 && stops[^1].Id == group[id]) stops[^1] = stops[^1] with { Points = [.. stops[^1].Points, id] };
            else stops.Add(new WalkStop(group[id], Title(points[id], draft.Groups.First(g => g.Id == group[id])), [id]));
        }

        // A group that was torn apart counts as several stops.
        return [.. stops.GroupBy(s => s.Id).SelectMany(g => g.Select((s, i) => i == 0 ? s : s with { Id = FormattableString.Invariant($"{s.Id}+{i}") })).OrderBy(s => IndexOf(route.Order, s.Points[0]))];
    }

    private string Title(ProbePoint first, ProbeGroup group) => group.Fixtures.Count > 1
        ? string.Join(", ", group.Fixtures.Select(f => Plan.FindFixture(f)?.Tag ?? f))
        : group.Fixtures.Count == 1 && Plan.FindFixture(group.Fixtures[0]) is { } fixture ? Say.Fixture(fixture) : Say.Title(Plan, first);

    private static string Rough(LengthUnit units, double metres) => !units.IsCustomary()
        ? FormattableString.Invariant($"{metres:0} m") : FormattableString.Invariant($"{metres / LengthUnits.MetresPerFoot:0} ft");

    private static int IndexOf(IReadOnlyList<string> list, string id)
    {
        for (var i = 0; i < list.Count; i++)
        {
            if (list[i] == id) return i;
        }

        return -1;
    }
}
