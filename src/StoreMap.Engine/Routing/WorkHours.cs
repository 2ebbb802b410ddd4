using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Rooms where sprays are used: before their work starts when a walk begins early enough, whenever when no work is on, else
/// last.</summary>
internal static class WorkHours
{
    private const double Day = 24 * 60;

    /// <summary>A draft with the turns that the time of day asks for; the same draft when no time is given or no room says its hours.</summary>
    public static ProbeDraft Turns(Plan plan, WalkingPaths paths, ProbeDraft draft, RouteRequest request)
    {
        if (request.Begin is not { } begin) return draft;
        var points = draft.Points.ToDictionary(p => p.Id);
        var turns = new Dictionary<string, GroupTurn>();
        // Rooms are done one after the other, the one whose work starts first coming first.
        var protocol = request.Protocol;
        var (now, at) = (protocol.SignInMinutes + protocol.WarmUpMinutes + protocol.ZeroMinutes, draft.Points.FirstOrDefault(p => p.Pass == ProbePass.Zero));
        foreach (var (room, start) in plan.Rooms.Where(r => r.Aerosol && r.Work.Count > 0).Select(r => (Room: r, Start: UntilWork(r, begin))).OrderBy(r => r.Start))
        {
            List<ProbeGroup> groups = [.. draft.Groups.Where(g => g.Room == room.Id && g.Turn == GroupTurn.Last)];
            if (groups.Count == 0) continue;
            var done = now + groups.Sum(g => MinutesOf(plan, paths, g, points, at, protocol));
            // No work all through a long night: the room is walked whenever the walk comes by.
            if (start >= Day / 2) turns[room.Id] = GroupTurn.Any;
            if (start >= Day / 2 || done > start) continue;
            turns[room.Id] = GroupTurn.Early;
            now = done;
        }

        return turns.Count == 0 ? draft
            : draft with { Groups = [.. draft.Groups.Select(g => g.Turn == GroupTurn.Last && g.Room is { } r && turns.TryGetValue(r, out var turn) ? g with { Turn = turn } : g)] };
    }

    /// <summary>Minutes from begin until work starts; 0 while it is on.</summary>
    private static double UntilWork(Room room, TimeOnly begin) =>
        room.Work.Min(w => begin.IsBetween(w.From, w.To) ? 0 : (w.From - begin).TotalMinutes);

    /// <summary>Minutes to walk to a group from the zero, which is further than from the room before, and through it.</summary>
    private static double MinutesOf(Plan plan, WalkingPaths paths, ProbeGroup group, Dictionary<string, ProbePoint> points, ProbePoint? from, Protocol protocol)
    {
        List<ProbePoint> walked = [.. group.Points.Select(id => points[id])];
        var metres = (from is null ? 0 : Metres(from, walked[0])) + walked.Zip(walked.Skip(1)).Sum(p => Metres(p.First, p.Second));
        return ((metres / protocol.WalkingMetresPerSecond) + group.EntrySeconds + walked.Sum(p => p.DwellSeconds + protocol.HandlingSeconds(plan, p))) / 60;

        double Metres(ProbePoint a, ProbePoint b) => paths.Path(a.Stand, b.Stand)?.Length ?? 0;
    }
}
