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
            var closer = ProbePlanner.Closer(plan, fixture, place.At * plan.Units.InMetres(), place.Spot, new Protocol());
            var at = points.FindLastIndex(p => p.Fixture == fixture.Id);
            points.InsertRange(at + 1, closer.Where(c => points.TrueForAll(p => p.Id != c.Id)));
        }

        return points;
    }

    /// <summary>The next point that is open, from the one after <paramref name="after"/> on and then from the first; null when none is.</summary>
    public static ProbePoint? Next(IReadOnlyList<ProbePoint> points, string? after, Func<ProbePoint, bool> open) =>
        points.Skip(IndexOf(points, after) + 1).FirstOrDefault(open) ?? points.FirstOrDefault(open);

    /// <summary>Place of a point in the order; -1 when it is not there.</summary>
    public static int IndexOf(IReadOnlyList<ProbePoint> points, string? id)
    {
        for (var i = 0; i < points.Count; i++)
        {
            if (points[i].Id == id) return i;
        }

        return -1;
    }

    private static IEnumerable<ProbePoint> Ordered(IReadOnlyList<ProbePoint> draft, IReadOnlyList<string>? order)
    {
        if (order is null) return draft;
        var byId = draft.ToDictionary(p => p.Id);
        var known = order.Where(byId.ContainsKey).ToList();
        return known.Select(id => byId[id]).Concat(draft.Where(p => !known.Contains(p.Id)));
    }
}
