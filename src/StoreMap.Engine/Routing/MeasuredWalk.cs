using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>An order of points measured: where the feet stand, the walks, and how the time passes.</summary>
internal sealed class MeasuredWalk
{
    private MeasuredWalk(IReadOnlyList<ProbePoint> order, IReadOnlyList<double> moved, IReadOnlyList<RouteLeg> legs)
    {
        (Order, Moved, Legs) = (order, moved, legs);
        Length = legs.Sum(l => l.Length);
    }

    /// <summary>The points in walking order, feet on free floor.</summary>
    public IReadOnlyList<ProbePoint> Order { get; }

    /// <summary>How far the feet were moved to free floor, metres.</summary>
    public IReadOnlyList<double> Moved { get; }

    /// <summary>The walks, with the return when closed.</summary>
    public IReadOnlyList<RouteLeg> Legs { get; }

    /// <summary>Metres.</summary>
    public double Length { get; }

    /// <summary>Where the minutes go.</summary>
    public required RouteMinutes Minutes { get; init; }

    /// <summary>Seconds from the end of warm-up until each point has been read.</summary>
    public required IReadOnlyList<double> Read { get; init; }

    /// <summary>The gas that it is set to at the start; null where no point has one.</summary>
    public string? FirstGas { get; init; }

    /// <summary>Changes of the monitor's gas: place in the order before which it is set, and the gas.</summary>
    public required IReadOnlyList<(int Before, string Gas)> GasChanges { get; init; }

    /// <summary>Measures an order.</summary>
    /// <exception cref="RefusedInputException">Points that can't be reached, each by name.</exception>
    public static MeasuredWalk Of(Plan plan, WalkingPaths paths, IReadOnlyList<ProbePoint> order, ProbeDraft draft, RouteRequest request)
    {
        var stands = order.Select(p => paths.Floor.Stand(p.Stand)).ToList();
        List<ProbePoint> points = [.. order.Select((p, i) => stands[i] is { } s ? p with { Stand = s.At } : p)];
        var legs = new List<RouteLeg>();
        for (var i = 0; i + 1 < order.Count + (request.Closed && order.Count > 1 ? 1 : 0); i++)
        {
            request.Budget.Cancel.ThrowIfCancellationRequested();
            var next = (i + 1) % order.Count;
            if (paths.Path(points[i].Stand, points[next].Stand) is not { } path)
            {
                // The matrix says of all points at once which can't be reached.
                _ = Walked.Between(paths, order, request.Budget.Cancel);
                throw new InvalidOperationException($"No way from {order[i].Id} to {order[next].Id}.");
            }

            legs.Add(new RouteLeg(order[i].Id, order[next].Id, path.Corners, path.Length));
        }

        var settings = Settings(order, draft);
        List<(int Before, string Gas)> changes = [.. settings.Skip(1)];
        return new(points, [.. stands.Select(s => s?.Moved ?? 0)], legs)
        {
            FirstGas = settings.Count > 0 ? settings[0].Gas : null, GasChanges = changes, Read = Times(plan, order, draft, request.Protocol, legs, changes),
            Minutes = MinutesOf(plan, order, draft, request.Protocol, legs.Sum(l => l.Length), changes.Count),
        };
    }

    /// <summary>Minutes until a leak is met on average, one leak being where the weights say; null when they say nothing.</summary>
    public double? ExpectedMinutes(RiskWeights weights)
    {
        var total = Order.Sum(p => weights.At(p.Id));
        return total > 0 ? Order.Select((p, i) => weights.At(p.Id) * Read[i]).Sum() / total / 60 : null;
    }

    private static double[] Times(
        Plan plan, IReadOnlyList<ProbePoint> order, ProbeDraft draft, Protocol protocol, List<RouteLeg> legs, List<(int Before, string Gas)> changes)
    {
        var groupOf = draft.Groups.SelectMany(g => g.Points.Select(p => (p, g))).ToDictionary(x => x.p, x => x.g);
        var entered = new HashSet<string>();
        var set = changes.Select(c => c.Before).ToHashSet();
        var read = new double[order.Count];
        var now = 0.0;
        for (var i = 0; i < order.Count; i++)
        {
            if (i > 0) now += legs[i - 1].Length / protocol.WalkingMetresPerSecond;
            if (set.Contains(i)) now += protocol.ZeroMinutes * 60;
            if (groupOf.TryGetValue(order[i].Id, out var group) && entered.Add(group.Id)) now += group.EntrySeconds;
            now += protocol.HandlingSeconds(plan, order[i]) + order[i].DwellSeconds;
            read[i] = now;
        }

        return read;
    }

    private static RouteMinutes MinutesOf(Plan plan, IReadOnlyList<ProbePoint> order, ProbeDraft draft, Protocol protocol, double length, int changes) => new(
        Walking: length / protocol.WalkingMetresPerSecond / 60,
        Probing: order.Sum(p => p.DwellSeconds) / 60,
        Handling: (order.Sum(p => protocol.HandlingSeconds(plan, p)) + draft.Groups.Sum(g => g.EntrySeconds)) / 60,
        Fixed: draft.Groups.Count == 0 ? 0
            : protocol.SignInMinutes + protocol.WarmUpMinutes + (protocol.ZeroMinutes * changes) + protocol.RestoreMinutes + protocol.WriteUpMinutes);

    /// <summary>What the monitor is set to first, and where to another gas on the way; each time it is zeroed again.</summary>
    private static List<(int Before, string Gas)> Settings(IReadOnlyList<ProbePoint> order, ProbeDraft draft)
    {
        var settings = new List<(int, string)>();
        if (draft.Groups.Count == 0) return settings;
        var gases = MonitorGas.ByPoint(draft);
        string? set = null;
        for (var i = 0; i < order.Count; i++)
        {
            // An open department's background is read with the gas of what comes next.
            var of = order[i] is { Pass: ProbePass.Background, Room: null } && i + 1 < order.Count ? order[i + 1] : order[i];
            if (gases.GetValueOrDefault(of.Id) is not { } gas || gas == set) continue;
            settings.Add((i, gas));
            set = gas;
        }

        return settings;
    }
}
