using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>Rings on the plan.</summary>
internal static class PlanRing
{
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
