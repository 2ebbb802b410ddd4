using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Fits checks into defrosts that stop the fans: on the way where the walk comes by, else by leaving it between two groups.</summary>
internal sealed class DefrostChecks
{
    private const double Day = 24 * 60;

    private static readonly ProbePass[] Probed = [ProbePass.Front, ProbePass.Doors, ProbePass.Perimeter, ProbePass.LowHigh, ProbePass.Coil];

    private readonly Plan plan;
    private readonly WalkingPaths paths;
    private readonly Protocol protocol;
    private readonly TimeOnly begin;
    private readonly ProbePoint[] order;
    private readonly bool[] endsGroup;
    private readonly double[] read;
    private readonly double[] leave;
    private readonly ProbePoint[] standing;

    private DefrostChecks(Plan plan, WalkingPaths paths, Route route, ProbeDraft draft, Protocol protocol, TimeOnly begin, IReadOnlyList<double> seconds)
    {
        (this.plan, this.paths, this.protocol, this.begin) = (plan, paths, protocol, begin);
        var points = route.Points.ToDictionary(p => p.Id);
        order = [.. route.Order.Select(id => points[id])];
        var groupOf = draft.Groups.SelectMany(g => g.Points.Select(p => (p, g.Id))).ToDictionary(x => x.p, x => x.Id);
        endsGroup = [.. order.Select((p, i) => i + 1 < order.Length && groupOf[p.Id] != groupOf[order[i + 1].Id] && order[i].Pass != ProbePass.Background)];
        read = [.. seconds.Select(s => protocol.SignInMinutes + protocol.WarmUpMinutes + (s / 60))];
        // After a check the walk is gone on with from where it was, at the time it was done, perhaps by the next check.
        (leave, standing) = ([.. read], [.. order]);
    }

    /// <summary>Makes the clock of a walk.</summary>
    /// <param name="plan">The store, with its circuits' defrosts.</param>
    /// <param name="paths">Walks on its free floor.</param>
    /// <param name="route">The walk.</param>
    /// <param name="draft">Its groups.</param>
    /// <param name="protocol">Speeds and times.</param>
    /// <param name="begin">Store time of sign-in.</param>
    /// <param name="seconds">Seconds from the end of warm-up until each point has been read.</param>
    public static RouteClock Of(
        Plan plan, WalkingPaths paths, Route route, ProbeDraft draft, Protocol protocol, TimeOnly begin, IReadOnlyList<double> seconds)
    {
        var clock = new DefrostChecks(plan, paths, route, draft, protocol, begin, seconds);
        var checks = new List<TimedCheck>();
        foreach (var (circuit, from) in clock.Windows())
        {
            if (clock.Check(circuit, from) is { } check) checks.Add(check);
        }

        var back = route.Closed && route.Legs.Count > 0 ? route.Legs[^1].Length / protocol.WalkingMetresPerSecond / 60 : 0;
        var end = (clock.read.Length == 0 ? 0 : clock.read[^1]) + back + protocol.RestoreMinutes + protocol.WriteUpMinutes;
        return new(begin, clock.Time(end), [.. clock.read.Select(clock.Time)], checks);
    }

    private TimeOnly Time(double minutes) => begin.Add(TimeSpan.FromSeconds(Math.Round(minutes * 60)));

    /// <summary>Circuits and minutes after begin at which a defrost that stops the fans starts or is under way, by start.</summary>
    private IEnumerable<(Circuit Circuit, double From)> Windows()
    {
        var windows = new List<(Circuit Circuit, double From)>();
        foreach (var circuit in plan.Circuits.Where(c => c.Defrost is { Kind: "electric" or "hot-gas" }))
        {
            foreach (var start in circuit.Defrost!.Starts)
            {
                var from = (start - begin).TotalMinutes;
                if (from + circuit.Defrost.Minutes > Day) from -= Day;
                windows.Add((circuit, from));
            }
        }

        return windows.OrderBy(w => w.From).ThenBy(w => w.Circuit.Id, StringComparer.Ordinal);
    }

    private TimedCheck? Check(Circuit circuit, double from)
    {
        var defrost = circuit.Defrost!;
        var (still, to) = (from + protocol.DefrostSettleMinutes, from + defrost.Minutes);
        List<ProbePoint> points = [.. order.Where(p => Probed.Contains(p.Pass) && CircuitOf(p) == circuit.Id)];
        if (points.Count == 0 || read.Length == 0 || from > read[^1] || to < read[0]) return null;
        TimedCheck Made(TimedCheckKind kind, double? at, string? after, IEnumerable<ProbePoint> probed, double metres = 0, double minutes = 0) =>
            new(kind, circuit.Id, defrost.Kind, Time(from), Time(to), at is { } t ? Time(t) : null, after, [.. probed.Select(p => p.Id)], metres, minutes);

        List<int> met = [.. Enumerable.Range(0, order.Length).Where(i => points.Contains(order[i]) && read[i] >= still && read[i] <= to)];
        if (met.Count * 2 >= points.Count) return Made(TimedCheckKind.OnTheWay, Math.Max(still, read[met[0]] - (order[met[0]].DwellSeconds / 60)), null, met.Select(i => order[i]));

        // Left in time and waited, or left after the next group and late: whichever probes more, then costs less.
        var places = Enumerable.Range(0, order.Length - 1).Where(i => endsGroup[i]).ToList();
        var inTime = places.FindLastIndex(i => leave[i] + Minutes(standing[i], points[0]) <= still);
        var detours = new[] { inTime, inTime + 1 }.Where(k => k >= 0 && k < places.Count).Select(k => Detour(places[k], points, still, to)).ToList();
        if (detours.Where(d => d.Probed.Count > 0).OrderByDescending(d => d.Probed.Count).ThenBy(d => d.Minutes).FirstOrDefault() is not { Probed: not null } best)
            return Made(TimedCheckKind.Missed, null, null, []);
        for (var j = best.Place + 1; j < read.Length; j++)
        {
            read[j] += best.Minutes;
            leave[j] += best.Minutes;
        }

        leave[best.Place] += best.Minutes + Minutes(standing[best.Place], order[best.Place + 1]) - Minutes(best.Probed[^1], order[best.Place + 1]);
        standing[best.Place] = best.Probed[^1];
        return Made(TimedCheckKind.Detour, best.At, order[best.Place].Id, best.Probed, best.Metres, best.Minutes);
    }

    /// <summary>Leaving the walk after a place for as many of the points as the still air lasts, and coming back to the next place.</summary>
    private (int Place, double At, List<ProbePoint> Probed, double Metres, double Minutes) Detour(int place, List<ProbePoint> points, double still, double to)
    {
        var (from, next) = (standing[place], order[place + 1]);
        var at = Math.Max(still, leave[place] + Minutes(from, points[0]));
        var probed = new List<ProbePoint>();
        var (now, metres) = (at, Metres(from, points[0]));
        foreach (var p in points)
        {
            var walk = probed.Count == 0 ? 0 : Metres(probed[^1], p);
            var then = now + (((walk / protocol.WalkingMetresPerSecond) + protocol.HandlingSeconds(plan, p) + p.DwellSeconds) / 60);
            if (then > to) break;
            probed.Add(p);
            (now, metres) = (then, metres + walk);
        }

        if (probed.Count == 0) return (place, at, probed, 0, 0);
        metres += Metres(probed[^1], next) - Metres(from, next);
        return (place, at, probed, metres, now + Minutes(probed[^1], next) - leave[place] - Minutes(from, next));
    }

    private string? CircuitOf(ProbePoint point)
    {
        if (plan.FindFixture(point.Fixture) is not { } fixture) return null;
        var section = fixture.Sections.LastOrDefault(s => s.From <= (point.Along ?? 0)) ?? fixture.Sections.FirstOrDefault();
        return section?.Circuit ?? fixture.WalkInCircuit;
    }

    private double Metres(ProbePoint a, ProbePoint b) => paths.Path(a.Stand, b.Stand)?.Length ?? 0;

    private double Minutes(ProbePoint a, ProbePoint b) => Metres(a, b) / protocol.WalkingMetresPerSecond / 60;
}
