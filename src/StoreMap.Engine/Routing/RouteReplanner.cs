using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Replans a walk from where the technician stands: what is done or out of reach falls out, what is new goes where it costs least,
/// and the rest keeps its order but for single changes that save more than a stated share.</summary>
public static class RouteReplanner
{
    private const string HereId = "here";
    private const string HomeId = "home";

    // A bound good enough to steer by, in a few hundredths of a second.
    private const long BoundWork = 20_000_000;

    /// <summary>Replans.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="paths">Walks on its free floor; kept between calls, this is the quickest part.</param>
    /// <param name="draft">The store's probe points, for their groups; of no matter for a walk over own points.</param>
    /// <param name="earlier">The walk so far.</param>
    /// <param name="request">How things stand.</param>
    /// <returns>The walk over what is left. Its first leg begins at <c>here</c>; its last ends where the earlier walk did.</returns>
    /// <exception cref="RefusedInputException">Ids that nobody knows, nothing left to walk, or points that can't be reached; all at once.</exception>
    public static Route Replan(Plan plan, WalkingPaths paths, ProbeDraft draft, EarlierRoute earlier, ReplanRequest request)
    {
        var rest = Rest.Of(draft, earlier, request);
        var route = new RouteRequest { Closed = false, Protocol = request.Protocol, Budget = new TourBudget { Cancel = request.Cancel } };
        var walk = GroupWalk.Of(plan, paths, rest.Draft, route, MonitorGas.Usual(draft));
        var kept = KeptOrder.Of(walk, [rest.Here, .. rest.Order, .. rest.Home is null ? [] : new[] { rest.Home }]);
        var least = request.LeastSaving * GroupTour.Length(walk.Costs, walk.Points.Count, walk.Ends, kept);
        var changed = GroupTour.Touch(walk.Costs, walk.Points.Count, walk.Ends, false, kept, Math.Max(1e-9, least));
        var order = walk.OrderOf(changed);
        var measured = MeasuredWalk.Of(plan, paths, order, rest.Draft, route);
        var bound = walk.Inside + GroupBound.Of(walk.Distances, walk.Points.Count, walk.Ends, changed, false, BoundWork, route.Budget);
        var made = RouteAssembly.Of(plan, paths, measured, rest.Draft, route, 0, false, bound, quick: true);
        return rest.Finish(made, request, order.Select(p => p.Id));
    }

    /// <summary>What is left of a walk, as a draft of its own.</summary>
    private sealed class Rest
    {
        private readonly EarlierRoute earlier;
        private readonly HashSet<string> gone;
        private readonly List<string> unreachable;

        private Rest(EarlierRoute earlier, HashSet<string> gone, List<string> unreachable) =>
            (this.earlier, this.gone, this.unreachable) = (earlier, gone, unreachable);

        public required ProbeDraft Draft { get; init; }

        /// <summary>Ids left, in their earlier order.</summary>
        public required IReadOnlyList<string> Order { get; init; }

        /// <summary>Id of the place where the technician stands.</summary>
        public required string Here { get; init; }

        /// <summary>Id of the place where the walk ends; null when it ends at its last point.</summary>
        public string? Home { get; private init; }

        public static Rest Of(ProbeDraft draft, EarlierRoute earlier, ReplanRequest request)
        {
            var problems = new List<Problem>();
            var done = Expand(earlier, request.Done, "done", problems);
            var unreachable = Expand(earlier, request.Unreachable, "unreachable", problems);
            var known = earlier.Points.Select(p => p.Id).ToHashSet();
            // A close-in pass asked for again is the same points.
            List<List<ProbePoint>> added = [.. request.Added.Select(g => g.Where(p => !known.Contains(p.Id)).ToList()).Where(g => g.Count > 0)];
            if (added.SelectMany(g => g).GroupBy(p => p.Id).FirstOrDefault(g => g.Count() > 1) is { } twice)
                problems.Add(Fault("added", twice.Key, "id-unique", $"The point {twice.Key} is added twice."));
            HashSet<string> gone = [.. done, .. unreachable];
            List<string> left = [.. earlier.Order.Where(id => !gone.Contains(id))];
            if (left.Count + added.Count == 0) problems.Add(Fault("done", null, "nothing-left", "Every point of the route is done or out of reach: there is nothing left to plan."));
            if (problems.Count > 0) throw new RefusedInputException(problems);

            var ids = new ProbeIds();
            foreach (var id in earlier.Order.Concat(added.SelectMany(g => g).Select(p => p.Id))) ids.Take("", id, "");
            var here = new ProbePoint { Id = ids.Take("", HereId, ""), Pass = ProbePass.Own, At = request.At, Stand = request.At };
            var home = earlier.Home is { } h ? new ProbePoint { Id = ids.Take("", HomeId, ""), Pass = ProbePass.Own, At = h.Stand, Stand = h.Stand } : null;
            // A route's document tells less of a point than the draft.
            var drafted = draft.Points.ToDictionary(p => p.Id);
            var points = earlier.Points.Where(p => left.Contains(p.Id)).Select(p => drafted.GetValueOrDefault(p.Id) ?? p)
                .Concat(added.SelectMany(g => g)).ToDictionary(p => p.Id);
            var groups = Groups(draft, left, points);
            var gas = MonitorGas.ByPoint(draft);
            groups.AddRange(added.Select(g => new ProbeGroup { Id = g[0].Id, Points = [.. g.Select(p => p.Id)], Reversible = g.Count > 1, Gas = GasOf(draft, gas, g[0]) }));
            groups.Insert(0, new ProbeGroup { Id = here.Id, Points = [here.Id], Turn = GroupTurn.Here, Gas = done.Select(gas.GetValueOrDefault).LastOrDefault(g => g is not null) });
            if (home is not null) groups.Add(new ProbeGroup { Id = home.Id, Points = [home.Id], Turn = GroupTurn.Home });
            var kept = groups.Select(g => g.Id).ToHashSet();
            return new(earlier, gone, unreachable)
            {
                Here = here.Id, Home = home?.Id, Order = left,
                Draft = new(
                    [here, .. points.Values, .. home is null ? [] : new[] { home }], groups,
                    [.. draft.Departments.Where(d => points.ContainsKey(d.Background)).Select(d => d with { Groups = [.. d.Groups.Where(kept.Contains)] })], []),
            };
        }

        /// <summary>Takes the technician's place and the way's end out of the points again.</summary>
        public Route Finish(Route made, ReplanRequest request, IEnumerable<string> walked)
        {
            bool IsPoint(string id) => id != Here && id != Home;
            string Named(string id) => id == Home ? earlier.Home!.Id : id;
            var added = made.Order.Where(id => IsPoint(id) && !earlier.Order.Contains(id)).ToList();
            return made with
            {
                Points = [.. made.Points.Where(p => IsPoint(p.Id))],
                Order = [.. made.Order.Where(IsPoint)],
                Legs = [.. made.Legs.Select(l => l with { To = Named(l.To) })],
                Minutes = made.Minutes with { Fixed = FixedLeft(made, request.Protocol) },
                Warnings = [.. made.Warnings.Where(w => w.Element is null || IsPoint(w.Element))],
                Replanned = new(
                    request.At, earlier.Home, gone.Count - unreachable.Count(gone.Contains), unreachable, added,
                    !walked.Where(id => IsPoint(id) && !added.Contains(id)).SequenceEqual(Order)),
            };
        }

        /// <summary>Sign-in, warm-up and zero are behind once the zero is read; a walk over own points has none of the fixed items.</summary>
        private static double FixedLeft(Route made, Protocol protocol) =>
            made.Points.All(p => p.Pass == ProbePass.Own) ? 0
            : made.Minutes.Fixed - (made.Points.Any(p => p.Pass == ProbePass.Zero) ? 0 : protocol.SignInMinutes + protocol.WarmUpMinutes);

        /// <summary>The draft's groups as far as they are left; points of no group, such as those of a close-in pass, with their neighbours on
        /// the same fixture.</summary>
        private static List<ProbeGroup> Groups(ProbeDraft draft, List<string> left, Dictionary<string, ProbePoint> points)
        {
            List<ProbeGroup> groups = [.. draft.Groups.Select(g => g with { Points = [.. g.Points.Where(points.ContainsKey)] }).Where(g => g.Points.Count > 0)];
            groups = [.. groups.Select(g => g with { Reversible = g.Reversible && g.Points.Count > 1 })];
            var grouped = groups.SelectMany(g => g.Points).ToHashSet();
            var gas = MonitorGas.ByPoint(draft);
            for (var from = 0; from < left.Count;)
            {
                var to = from + 1;
                if (!grouped.Contains(left[from]))
                {
                    var first = points[left[from]];
                    while (to < left.Count && !grouped.Contains(left[to]) && first.Fixture is not null && points[left[to]].Fixture == first.Fixture) to++;
                    groups.Add(new() { Id = first.Id, Points = left[from..to], Reversible = to - from > 1, Gas = GasOf(draft, gas, first) });
                }

                from = to;
            }

            return groups;
        }

        private static string? GasOf(ProbeDraft draft, Dictionary<string, string?> gas, ProbePoint point) =>
            draft.Points.Where(p => p.Fixture is not null && p.Fixture == point.Fixture).Select(p => gas[p.Id]).FirstOrDefault(g => g is not null);

        private static List<string> Expand(EarlierRoute earlier, IReadOnlyList<string> ids, string field, List<Problem> problems)
        {
            var all = new List<string>();
            foreach (var id in ids)
            {
                List<string> named = [.. earlier.Points.Where(p => p.Id == id).Select(p => p.Id)];
                if (named.Count == 0) named = [.. earlier.Points.Where(p => p.Fixture == id || p.Equipment == id || p.Room == id).Select(p => p.Id)];
                if (named.Count == 0)
                    problems.Add(Fault(field, id, "known-point", $"The route has no point {id}, and no points on a fixture, equipment or room of that id."));
                all.AddRange(named.Where(n => !all.Contains(n)));
            }

            return all;
        }

        private static Problem Fault(string field, string? value, string rule, string message) =>
            new(Severity.Error, null, value, field, value, rule, message);
    }
}
