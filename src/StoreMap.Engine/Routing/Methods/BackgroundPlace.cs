using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Where the air before a case is read: some steps back from it, on the same side of walls and fixtures as its stand.</summary>
internal static class BackgroundPlace
{
    /// <summary>The full distance if the way is clear, else half of it, else the stand itself.</summary>
    public static PlanPoint Before(Plan plan, ProbePoint point, Protocol protocol)
    {
        var stand = WalkInDoor.Outside(plan.FindFixture(point.Fixture), protocol.StandOffMetres) ?? point.Stand;
        var from = plan.FindFixture(point.Fixture) is { Kind: FixtureKind.WalkIn, Opening: { } door } ? door.Middle : point.At;
        var length = stand.DistanceTo(from);
        if (length == 0) return stand;
        foreach (var share in new[] { 1.0, 0.5 })
        {
            var off = protocol.BackgroundOffMetres * share;
            var place = from + ((stand - from) * (off / length));
            if (off > length && IsClear(plan, new PlanSegment(stand, place))) return place;
        }

        return stand;
    }

    private static bool IsClear(Plan plan, PlanSegment way)
    {
        var rings = plan.Fixtures.Select(f => f.Outline).Concat(plan.Obstacles.Select(o => o.Outline)).Concat(plan.Rooms.Select(r => r.Outline)).Append(plan.Outline);
        return !rings.SelectMany(Rings.Edges).Any(edge => Cross(way, edge));
    }

    /// <summary>True when two pieces meet; touching counts.</summary>
    private static bool Cross(PlanSegment p, PlanSegment q)
    {
        var (u, v) = (p.B - p.A, q.B - q.A);
        return u.Cross(q.A - p.A) * u.Cross(q.B - p.A) <= 0 && v.Cross(p.A - q.A) * v.Cross(p.B - q.A) <= 0;
    }
}
