using StoreMap.Plans;

namespace StoreMap.Simulation;

/// <summary>What air does not pass: walls outside their openings, fixtures and shelving.</summary>
internal static class Barriers
{
    public static IReadOnlyList<PlanSegment> Of(Plan plan)
    {
        var segments = new List<PlanSegment>();
        segments.AddRange(Ring(plan.Outline));
        foreach (var room in plan.Rooms) segments.AddRange(Ring(room.Outline).SelectMany(s => Without(s, room.Openings)));
        foreach (var obstacle in plan.Obstacles) segments.AddRange(Ring(obstacle.Outline));
        foreach (var fixture in plan.Fixtures)
        {
            segments.AddRange(Ring(fixture.Outline).SelectMany(s => Without(s, fixture.Opening is { } o ? [o] : [])));
        }

        return segments;
    }

    private static IEnumerable<PlanSegment> Ring(IReadOnlyList<PlanPoint> ring) =>
        ring.Select((p, i) => new PlanSegment(p, ring[(i + 1) % ring.Count]));

    /// <summary>A wall piece with the openings on it taken out.</summary>
    private static IEnumerable<PlanSegment> Without(PlanSegment wall, IReadOnlyList<PlanSegment> openings)
    {
        var d = (wall.B - wall.A) * (1 / wall.Length);
        var cuts = openings
            .Where(o => Math.Abs(d.Cross(o.A - wall.A)) < 0.05 && Math.Abs(d.Cross(o.B - wall.A)) < 0.05)
            .Select(o => (From: Math.Min(d.Dot(o.A - wall.A), d.Dot(o.B - wall.A)), To: Math.Max(d.Dot(o.A - wall.A), d.Dot(o.B - wall.A))))
            .OrderBy(c => c.From);
        var at = 0.0;
        foreach (var (from, to) in cuts)
        {
            if (from > at) yield return new PlanSegment(wall.A + (d * at), wall.A + (d * from));
            at = Math.Max(at, to);
        }

        if (at < wall.Length) yield return new PlanSegment(wall.A + (d * at), wall.B);
    }
}
