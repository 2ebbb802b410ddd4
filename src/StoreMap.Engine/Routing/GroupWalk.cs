using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>A draft as the searches see it: groups with their two ends, walks between them, and what else weighs like walking.</summary>
internal sealed class GroupWalk
{
    private readonly Plan plan;
    private readonly ProbeDraft draft;
    private readonly Dictionary<string, ProbePoint> byId;
    private readonly Dictionary<string, ProbeDepartment> onTheWay;
    private readonly string?[] gas;
    private readonly string?[] ownGas;
    private readonly double[] spent;
    private readonly double[] entry;
    private readonly int[] department;
    private readonly double[] background;

    private GroupWalk(Plan plan, WalkingPaths paths, ProbeDraft draft, RouteRequest request, string? usualGas)
    {
        (this.plan, this.draft, Protocol) = (plan, draft, request.Protocol);
        byId = draft.Points.ToDictionary(p => p.Id);
        // Backgrounds of open departments are read on the way in, so only what is walked to takes part in the search.
        onTheWay = draft.Departments.Where(d => d.Groups.Count > 0 && byId[d.Background].Room is null).ToDictionary(d => d.Background);
        Groups = [.. draft.Groups.Where(g => !g.Points.All(onTheWay.ContainsKey))];
        Points = [.. Groups.SelectMany(g => g.Points).Select(id => byId[id])];
        Distances = Walked.Between(paths, Points, request.Budget.Cancel).Distances;
        Index = Points.Select((p, i) => (p.Id, i)).ToDictionary(x => x.Id, x => x.i);
        // One point is the same from either end.
        Ends = [.. Groups.Select(g => new TourGroup(Index[g.Points[0]], Index[g.Points[^1]], g.Reversible || g.Points.Count == 1, (int)g.Turn))];
        var gases = MonitorGas.ByPoint(draft);
        gas = [.. Points.Select(p => gases[p.Id] ?? usualGas)];
        ownGas = [.. Points.Select(p => gases[p.Id])];
        spent = [.. Points.Select(p => Protocol.HandlingSeconds(plan, p) + p.DwellSeconds)];
        entry = [.. Groups.Select(g => g.EntrySeconds)];
        List<ProbeDepartment> open = [.. onTheWay.Values];
        department = [.. Groups.Select(g => open.FindIndex(d => d.Groups.Contains(g.Id)))];
        background = [.. open.Select(d => byId[d.Background].DwellSeconds)];
        Costs = CostsOf(paths, request.Budget.Cancel);
        Inside = Groups.Sum(g => g.Points.Zip(g.Points.Skip(1)).Sum(p => Distances[(Index[p.First] * Points.Count) + Index[p.Second]]));
    }

    /// <summary>The groups that take part in the search.</summary>
    public IReadOnlyList<ProbeGroup> Groups { get; }

    /// <summary>Their points, group by group.</summary>
    public IReadOnlyList<ProbePoint> Points { get; }

    /// <summary>Place of each point in <see cref="Points"/>.</summary>
    public IReadOnlyDictionary<string, int> Index { get; }

    /// <summary>The groups' ends.</summary>
    public TourGroup[] Ends { get; }

    /// <summary>Metres between points, row by row.</summary>
    public double[] Distances { get; }

    /// <summary>Metres between points with what else it costs to go from one to the other, in metres walked in the same time.</summary>
    public double[] Costs { get; }

    /// <summary>Metres inside the groups, the same in every order.</summary>
    public double Inside { get; }

    /// <summary>Speeds and times.</summary>
    public Protocol Protocol { get; }

    /// <summary>Measures a draft.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="paths">Walks on its free floor.</param>
    /// <param name="draft">Points and groups.</param>
    /// <param name="request">Protocol and cancellation.</param>
    /// <param name="usualGas">The gas that stands for none; by default the draft's own most usual.</param>
    public static GroupWalk Of(Plan plan, WalkingPaths paths, ProbeDraft draft, RouteRequest request, string? usualGas = null) =>
        new(plan, paths, draft, request, usualGas ?? MonitorGas.Usual(draft));

    /// <summary>Seconds to walk from one point to another, the change of the monitor's gas included.</summary>
    public double Seconds(int from, int to) =>
        (Distances[(from * Points.Count) + to] / Protocol.WalkingMetresPerSecond) + (gas[from] == gas[to] ? 0 : Protocol.ZeroMinutes * 60);

    /// <summary>The points of an order of groups: backgrounds of open departments where they are entered, rooms' before their groups.</summary>
    public List<ProbePoint> OrderOf(GroupOrder found)
    {
        var order = new List<ProbePoint>();
        var unread = onTheWay.Keys.ToHashSet();
        foreach (var (group, backwards) in RoomsFirst(found))
        {
            foreach (var id in backwards ? group.Points.Reverse() : group.Points)
            {
                var entered = draft.Departments.FirstOrDefault(d => unread.Contains(d.Background) && d.Groups.Contains(group.Id));
                if (entered is not null && unread.Remove(entered.Background))
                    order.Add(ProbePlanner.AtEntry(plan, byId[entered.Background], byId[id], Protocol));
                order.Add(byId[id]);
            }
        }

        return order;
    }

    /// <summary>A room's background moved to just before the first of its groups, where it costs next to nothing.</summary>
    private List<(ProbeGroup Group, bool Backwards)> RoomsFirst(GroupOrder found)
    {
        List<(ProbeGroup Group, bool Backwards)> order = [.. found.Order.Select((g, i) => (Groups[g], found.Backwards[i]))];
        foreach (var room in draft.Departments.Where(d => d.Groups.Count > 0 && byId[d.Background].Room is not null))
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

    /// <summary>Metres, with what else it weighs, from the group at one place of an order to that at another.</summary>
    public double Cost(GroupOrder order, int from, int to)
    {
        var (a, b) = (Ends[order.Order[from]], Ends[order.Order[to]]);
        return Costs[((order.Backwards[from] ? a.First : a.Last) * Points.Count) + (order.Backwards[to] ? b.Last : b.First)];
    }

    /// <summary>An order in time, by index of <see cref="Points"/>; a background of an open department takes its dwell where the first of its
    /// groups is entered, the few metres to it left out.</summary>
    public TimedCourse Course(GroupOrder order, bool closed)
    {
        var (at, step, inside) = (new int[Points.Count], new double[Points.Count], new double[Points.Count]);
        var heard = new bool[onTheWay.Count];
        var k = 0;
        for (var g = 0; g < order.Order.Length; g++)
        {
            var group = order.Order[g];
            var (first, last) = (Ends[group].First, Ends[group].Last);
            for (var i = 0; i <= last - first; i++, k++)
            {
                at[k] = order.Backwards[g] ? last - i : first + i;
                inside[k] = spent[at[k]] + (i == 0 ? entry[group] : 0);
                step[k] = inside[k] + (k == 0 ? 0 : Seconds(at[k - 1], at[k]));
                if (i > 0 || department[group] is not (>= 0 and var d) || heard[d]) continue;
                heard[d] = true;
                step[k] += background[d];
            }
        }

        for (var i = 0; i < k; i++) (step[i], inside[i]) = (step[i] / 60, inside[i] / 60);
        return new(at, step, inside, closed && k > 1 ? Seconds(at[^1], at[0]) / 60 : 0);
    }

    /// <summary>Metres between points with the changes of gas that no order can spare, in metres walked in the same time: groups of no gas
    /// of their own come between for nothing. For bounds; null when there is one gas at most.</summary>
    public double[]? WithChanges()
    {
        if (ownGas.OfType<string>().Distinct().Count() < 2) return null;
        var change = Protocol.ZeroMinutes * 60 * Protocol.WalkingMetresPerSecond;
        var costs = (double[])Distances.Clone();
        for (var i = 0; i < Points.Count; i++)
        {
            for (var j = 0; j < Points.Count; j++) costs[(i * Points.Count) + j] += ownGas[i] is { } a && ownGas[j] is { } b && a != b ? change : 0;
        }

        return costs;
    }

    private double[] CostsOf(WalkingPaths paths, CancellationToken cancel)
    {
        var costs = (double[])Distances.Clone();
        var change = Protocol.ZeroMinutes * 60 * Protocol.WalkingMetresPerSecond;
        for (var i = 0; i < Points.Count; i++)
        {
            for (var j = 0; j < Points.Count; j++) costs[(i * Points.Count) + j] += gas[i] == gas[j] ? 0 : change;
        }

        var strips = Strips(Groups, Points, Index);
        if (strips is null || Protocol.RewalkWeight <= 0) return costs;
        // Groups are left and entered at their ends only.
        int[] ends = [.. Ends.SelectMany(g => new[] { g.First, g.Last }).Distinct()];
        paths.ForEach([.. ends.Select(e => Points[e].Stand)], (i, j, corners) =>
        {
            var again = Protocol.RewalkWeight * strips.Along(corners);
            costs[(ends[i] * Points.Count) + ends[j]] += again;
            costs[(ends[j] * Points.Count) + ends[i]] += again;
        }, cancel);
        return costs;
    }

    /// <summary>The strips along line-ups and islands; null when the draft has none, as one of own points.</summary>
    public static AisleStrips? Strips(IReadOnlyList<ProbeGroup> groups, IReadOnlyList<ProbePoint> points, IReadOnlyDictionary<string, int> index)
    {
        List<List<PlanPoint>> courses = [.. groups.Where(g => g.Points.Count > 1 && points[index[g.Points[0]]].Along is not null).Select(g => g.Points.Select(p => points[index[p]].Stand).ToList())];
        return courses.Count == 0 ? null : new AisleStrips(courses);
    }
}
