using StoreMap.Plans;

namespace StoreMap.Evaluation;

/// <summary>Counts panels opened until a leak is found.</summary>
internal static class Opening
{
    /// <summary>Opens panels in a given order, then all others by their distance from the place named.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="order">Panel ids to be opened first.</param>
    /// <param name="from">Place from which the search goes on.</param>
    /// <param name="fixture">Fixture of the leak.</param>
    /// <param name="along">Metres along its front.</param>
    public static int Count(Plan plan, IReadOnlyList<string> order, PlanPoint from, Fixture fixture, double along)
    {
        var holding = fixture.Panels.First(p => along <= p.To + 1e-9 || p == fixture.Panels[^1]).Id;
        var at = order.ToList().IndexOf(holding);
        if (at >= 0) return at + 1;
        var rest = plan.Fixtures.Where(f => f.Front is not null)
            .SelectMany(f => f.Panels.Select(p => (p.Id, Distance: f.Front!.PointAt((p.From + p.To) / 2).DistanceTo(from))))
            .Where(p => !order.Contains(p.Id)).OrderBy(p => p.Distance).Select(p => p.Id).ToList();
        return order.Count + rest.IndexOf(holding) + 1;
    }
}
