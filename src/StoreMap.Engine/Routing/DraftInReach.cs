using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Leaves the points out of a draft that can't be walked to.</summary>
public static class DraftInReach
{
    /// <summary>Keeps the points that stand on the floor where most of them are.</summary>
    /// <param name="draft">The whole draft.</param>
    /// <param name="floor">The free floor that is walked.</param>
    /// <returns>The draft to walk, and the points left out in the draft's order. Where there is no free floor at all none is left out.</returns>
    public static (ProbeDraft Draft, IReadOnlyList<ProbePoint> LeftOut) InReach(this ProbeDraft draft, FreeFloor floor)
    {
        List<int> regions = [.. draft.Points.Select(p => floor.Stand(p.Stand)?.Region).OfType<int>()];
        if (regions.Count < draft.Points.Count || StandingProblems.Home(regions) is not { } home) return (draft, []);
        List<ProbePoint> leftOut = [.. draft.Points.Where((_, i) => regions[i] != home)];
        if (leftOut.Count == 0) return (draft, []);
        return (draft.Keeping([.. draft.Points.Where((_, i) => regions[i] == home).Select(p => p.Id)]), leftOut);
    }

    /// <summary>A draft of some of its points: groups without any fall out, and departments without their background.</summary>
    internal static ProbeDraft Keeping(this ProbeDraft draft, HashSet<string> kept)
    {
        List<ProbeGroup> groups = [.. draft.Groups.Select(g => g with { Points = [.. g.Points.Where(kept.Contains)] }).Where(g => g.Points.Count > 0)];
        var left = groups.Select(g => g.Id).ToHashSet();
        return draft with
        {
            Points = [.. draft.Points.Where(p => kept.Contains(p.Id))],
            Groups = groups,
            Departments = [.. draft.Departments.Where(d => kept.Contains(d.Background)).Select(d => d with { Groups = [.. d.Groups.Where(left.Contains)] })],
        };
    }
}
