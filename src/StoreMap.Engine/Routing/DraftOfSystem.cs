using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Cuts a draft down to one system.</summary>
public static class DraftOfSystem
{
    /// <summary>Keeps the fixtures and equipment of one system, the zero, and the backgrounds that what is left needs.</summary>
    /// <param name="draft">The whole draft.</param>
    /// <param name="plan">The store.</param>
    /// <param name="system">System id.</param>
    public static ProbeDraft OfSystem(this ProbeDraft draft, Plan plan, string system)
    {
        bool Fed(ProbePoint p) =>
            (plan.FindFixture(p.Fixture) is { } fixture && plan.SystemAt(fixture, p.Along ?? 0)?.Id == system)
            || plan.Equipment.Any(e => e.Id == p.Equipment && e.System == system)
            || p.Pass == ProbePass.Zero;
        var kept = draft.Points.Where(Fed).Select(p => p.Id).ToHashSet();
        List<ProbeDepartment> departments =
        [
            .. draft.Departments
                .Select(d => d with { Groups = [.. d.Groups.Where(id => draft.Groups.First(g => g.Id == id).Points.Any(kept.Contains))] })
                .Where(d => d.Groups.Count > 0),
        ];
        kept.UnionWith(departments.Select(d => d.Background));
        return draft with
        {
            Points = [.. draft.Points.Where(p => kept.Contains(p.Id))],
            Groups = [.. draft.Groups.Select(g => g with { Points = [.. g.Points.Where(kept.Contains)] }).Where(g => g.Points.Count > 0)],
            Departments = departments,
        };
    }
}
