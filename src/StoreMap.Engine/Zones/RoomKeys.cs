using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Which air a point belongs to: a walk-in, a room, or the sales floor (null).</summary>
internal static class RoomKeys
{
    /// <summary>The room of a point.</summary>
    public static string? At(Plan plan, PlanPoint p) =>
        plan.Fixtures.FirstOrDefault(f => f.Kind == FixtureKind.WalkIn && Holds(f.Outline, p))?.Id
        ?? plan.Rooms.FirstOrDefault(r => Holds(r.Outline, p))?.Id;

    /// <summary>The room a fixture's front gives on.</summary>
    public static string? Of(Plan plan, Fixture fixture)
    {
        if (fixture.Front is null) return fixture.Id;
        var middle = fixture.Front.Length / 2;
        return At(plan, fixture.Front.PointAt(middle) + (fixture.OutwardAt(middle) * 0.1));
    }

    /// <summary>True when a ring holds a point (even-odd rule).</summary>
    public static bool Holds(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        var inside = false;
        for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
        {
            var (a, b) = (ring[i], ring[j]);
            if (a.Y > p.Y != b.Y > p.Y && p.X < a.X + ((p.Y - a.Y) / (b.Y - a.Y) * (b.X - a.X))) inside = !inside;
        }

        return inside;
    }
}
