using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;

namespace StoreMap.Web.Surveying;

/// <summary>The probe points in the order to walk them, close-in points beside what they close in on.</summary>
internal static class PointOrder
{
    public static IReadOnlyList<ProbePoint> Of(Plan plan, IReadOnlyList<ProbePoint> draft, IReadOnlyList<string>? order, JournalState state)
    {
        List<ProbePoint> points = [.. Ordered(draft, order)];
        foreach (var place in state.CloseIns)
        {
            if (plan.FindFixture(place.Fixture) is not { } fixture) continue;
            var closer = ProbePlanner.CloseIn(plan, fixture, place.At * plan.Units.InMetres(), new Protocol());
            var at = points.FindLastIndex(p => p.Fixture == fixture.Id);
            points.InsertRange(at + 1, closer.Where(c => points.TrueForAll(p => p.Id != c.Id)));
        }

        return points;
    }

    private static IEnumerable<ProbePoint> Ordered(IReadOnlyList<ProbePoint> draft, IReadOnlyList<string>? order)
    {
        if (order is null) return draft;
        var byId = draft.ToDictionary(p => p.Id);
        var known = order.Where(byId.ContainsKey).ToList();
        return known.Select(id => byId[id]).Concat(draft.Where(p => !known.Contains(p.Id)));
    }
}
