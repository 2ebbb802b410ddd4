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
        kept.UnionWith(draft.Departments.Where(d => d.Groups.Any(id => draft.Groups.First(g => g.Id == id).Points.Any(kept.Contains))).Select(d => d.Background).ToList());
        return draft.Keeping(kept);
    }
}
