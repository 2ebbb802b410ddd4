namespace StoreMap.Plans;

/// <summary>Pure functions on rings: closed polygons given by their corners in order, first corner not repeated, in metres, y up.</summary>
internal static class Rings
{
    /// <summary>Area with sign, square metres: positive for a counter-clockwise ring (shoelace formula, taken about the first
    /// corner so that far-off coordinates cost no digits).</summary>
    public static double SignedArea(IReadOnlyList<PlanPoint> ring)
    {
        var twice = 0.0;
        for (var i = 1; i + 1 < ring.Count; i++) twice += (ring[i] - ring[0]).Cross(ring[i + 1] - ring[0]);
        return twice / 2;
    }

    /// <summary>The ring turned counter-clockwise, its first corner kept.</summary>
    public static IReadOnlyList<PlanPoint> CounterClockwise(IReadOnlyList<PlanPoint> ring) =>
        SignedArea(ring) >= 0 ? ring : [ring[0], .. ring.Skip(1).Reverse()];

    /// <summary>The edges in order, the closing one last.</summary>
    public static IEnumerable<PlanSegment> Edges(IReadOnlyList<PlanPoint> ring)
    {
        for (var i = 0; i < ring.Count; i++) yield return new PlanSegment(ring[i], ring[(i + 1) % ring.Count]);
    }

    /// <summary>True when the point lies inside the ring (crossing number; a point exactly on an edge may fall either way).</summary>
    public static bool Contains(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        var inside = false;
        for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
        {
            PlanPoint a = ring[i], b = ring[j];
            if (a.Y > p.Y != b.Y > p.Y && p.X < a.X + ((p.Y - a.Y) / (b.Y - a.Y) * (b.X - a.X))) inside = !inside;
        }

        return inside;
    }

    /// <summary>True when the point lies inside the ring or within the tolerance, metres, of its edge.</summary>
    public static bool Covers(IReadOnlyList<PlanPoint> ring, PlanPoint p, double tolerance) =>
        Contains(ring, p) || DistanceToEdge(ring, p) <= tolerance;

    /// <summary>Straight distance from a point to the nearest place on the ring's edge, metres.</summary>
    public static double DistanceToEdge(IReadOnlyList<PlanPoint> ring, PlanPoint p) => NearestOnEdge(ring, p).DistanceTo(p);

    /// <summary>The nearest place on the ring's edge; of equally near ones that on the earliest edge.</summary>
    public static PlanPoint NearestOnEdge(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        var best = ring[0];
        foreach (var edge in Edges(ring))
        {
            var nearest = edge.Nearest(p);
            if (nearest.DistanceTo(p) < best.DistanceTo(p)) best = nearest;
        }

        return best;
    }

    /// <summary>Length of the ring's edge, metres.</summary>
    public static double Perimeter(IReadOnlyList<PlanPoint> ring) => Edges(ring).Sum(e => e.Length);

    /// <summary>The smallest upright box round the points.</summary>
    public static (PlanPoint Low, PlanPoint High) Box(IReadOnlyList<PlanPoint> points)
    {
        double lowX = points[0].X, lowY = points[0].Y, highX = lowX, highY = lowY;
        foreach (var p in points)
        {
            lowX = Math.Min(lowX, p.X);
            lowY = Math.Min(lowY, p.Y);
            highX = Math.Max(highX, p.X);
            highY = Math.Max(highY, p.Y);
        }

        return (new PlanPoint(lowX, lowY), new PlanPoint(highX, highY));
    }
}
