using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>A defrost that stops the fans, in minutes after the begin.</summary>
/// <param name="Circuit">The circuit.</param>
/// <param name="From">Starts.</param>
/// <param name="Still">The air is still: readings count as fans-off.</param>
/// <param name="To">Ends.</param>
internal sealed record DefrostWindow(Circuit Circuit, double From, double Still, double To);

/// <summary>What the time of day touches at each of some points, by index: hours, circuits, minutes; and the walks between them.</summary>
internal sealed class TimedStore
{
    private const double Day = 24 * 60;

    private static readonly ProbePass[] Probed = [ProbePass.Front, ProbePass.Doors, ProbePass.Perimeter, ProbePass.LowHigh, ProbePass.Coil];

    private readonly double[] metres;

    private TimedStore(Plan plan, IReadOnlyList<ProbePoint> points, double[] metres, ProbeDraft draft, Protocol protocol, TimeOnly begin, double margin)
    {
        (Points, this.metres, Protocol, Begin) = (points, metres, protocol, begin);
        Inside = [.. points.Select(p => (protocol.HandlingSeconds(plan, p) + p.DwellSeconds) / 60)];
        Windows = [.. WindowsOf(plan, protocol, begin)];
        var timed = Windows.Select(w => w.Circuit.Id).ToHashSet();
        Circuits = [.. points.Select(p => timed.Count > 0 && Probed.Contains(p.Pass) && CircuitOf(plan, p) is { } c && timed.Contains(c) ? c : null)];
        Places = new TimedPlace[points.Count][];
        Hours = new (double, double)[]?[points.Count];
        GroupOf = [.. points.Select(_ => -1)];
        var index = points.Select((p, i) => (p.Id, i)).ToDictionary(x => x.Id, x => x.i);
        foreach (var (group, g) in draft.Groups.Select((group, g) => (group, g)))
        {
            List<int> own = [.. group.Points.Where(index.ContainsKey).Select(id => index[id])];
            // A group is walked in one go, so that the hours of all its places hold for all of it.
            TimedPlace[] places = [.. own.SelectMany(i => EntryHours.At(plan, points[i])).DistinctBy(p => p.Id)];
            var hours = places.Length == 0 ? null : EntryHours.Minutes(places, begin).Select(h => (h.From, h.To - margin)).ToArray();
            foreach (var i in own) (GroupOf[i], Places[i], Hours[i]) = (g, places, hours);
        }
    }

    /// <summary>The points.</summary>
    public IReadOnlyList<ProbePoint> Points { get; }

    /// <summary>Minutes at each point once it is reached; a group's entry comes on top.</summary>
    public double[] Inside { get; }

    /// <summary>Per point, the group it is of, as its place in the draft; -1 for none.</summary>
    public int[] GroupOf { get; }

    /// <summary>Per point, the circuit whose defrosts matter to it; null for none.</summary>
    public string?[] Circuits { get; }

    /// <summary>Per point, the rooms and areas with hours that its group lies in.</summary>
    public TimedPlace[][] Places { get; }

    /// <summary>Per point, when its group may be walked, minutes after the begin, by start; null for always.</summary>
    public (double From, double To)[]?[] Hours { get; }

    /// <summary>Defrosts that stop fans, by start.</summary>
    public IReadOnlyList<DefrostWindow> Windows { get; }

    /// <summary>Speeds and times.</summary>
    public Protocol Protocol { get; }

    /// <summary>Store time of sign-in.</summary>
    public TimeOnly Begin { get; }

    /// <summary>True when the time of day says anything about these points.</summary>
    public bool Matters => Hours.Any(h => h is not null) || Circuits.Any(c => c is not null);

    /// <summary>Prepares points.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="points">The points, in any order.</param>
    /// <param name="metres">Walks between them, row by row.</param>
    /// <param name="draft">Their groups.</param>
    /// <param name="protocol">Speeds and times.</param>
    /// <param name="begin">Store time of sign-in.</param>
    /// <param name="margin">Minutes by which to be done before a place shuts.</param>
    public static TimedStore Of(Plan plan, IReadOnlyList<ProbePoint> points, double[] metres, ProbeDraft draft, Protocol protocol, TimeOnly begin, double margin = 0) =>
        new(plan, points, metres, draft, protocol, begin, margin);

    /// <summary>The walk from one point to another, metres.</summary>
    public double Metres(int from, int to) => metres[(from * Points.Count) + to];

    /// <summary>The walk in minutes.</summary>
    public double Minutes(int from, int to) => Metres(from, to) / Protocol.WalkingMetresPerSecond / 60;

    /// <summary>Defrosts that start, or are under way, within a day of the begin.</summary>
    private static IEnumerable<DefrostWindow> WindowsOf(Plan plan, Protocol protocol, TimeOnly begin)
    {
        var windows = new List<DefrostWindow>();
        foreach (var circuit in plan.Circuits.Where(c => c.Defrost is { Kind: "electric" or "hot-gas" }))
        {
            foreach (var start in circuit.Defrost!.Starts)
            {
                var from = (start - begin).TotalMinutes;
                if (from + circuit.Defrost.Minutes > Day) from -= Day;
                windows.Add(new(circuit, from, from + protocol.DefrostSettleMinutes, from + circuit.Defrost.Minutes));
            }
        }

        return windows.OrderBy(w => w.From).ThenBy(w => w.Circuit.Id, StringComparer.Ordinal);
    }

    private static string? CircuitOf(Plan plan, ProbePoint point)
    {
        if (plan.FindFixture(point.Fixture) is not { } fixture) return null;
        var section = fixture.Sections.LastOrDefault(s => s.From <= (point.Along ?? 0)) ?? fixture.Sections.FirstOrDefault();
        return section?.Circuit ?? fixture.WalkInCircuit;
    }
}

/// <summary>An order of points with the time each step takes.</summary>
/// <param name="At">Index of each point, in walking order.</param>
/// <param name="Step">Minutes from the reading before (or the end of warm-up) to this one: walking, changes of gas, entering, handling, dwell.</param>
/// <param name="Inside">The part of it spent at the point once it is reached.</param>
/// <param name="Back">Minutes of the way back; 0 when open.</param>
internal sealed record TimedCourse(int[] At, double[] Step, double[] Inside, double Back);
