using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>A place well inside a ring.</summary>
internal static class RingMiddle
{
    /// <summary>The ring's centroid, or the interior point of NetTopologySuite when the centroid lies outside.</summary>
    public static PlanPoint Of(IReadOnlyList<PlanPoint> ring)
    {
        var polygon = PlanShapes.Polygon(ring);
        var centroid = new PlanPoint(polygon.Centroid.X, polygon.Centroid.Y);
        return Rings.Contains(ring, centroid) ? centroid : new(polygon.InteriorPoint.X, polygon.InteriorPoint.Y);
    }
}
