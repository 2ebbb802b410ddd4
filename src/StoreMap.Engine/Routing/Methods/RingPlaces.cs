using NetTopologySuite.Algorithm;
using NetTopologySuite.Geometries;
using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Whether and where places lie inside a ring.</summary>
internal static class RingPlaces
{
    /// <summary>True inside a ring and on its edge.</summary>
    public static bool Contains(IReadOnlyList<PlanPoint> ring, PlanPoint p) =>
        PointLocation.IsInRing(new Coordinate(p.X, p.Y), Closed(ring));

    /// <summary>The ring's centroid, or a place inside when the centroid is not.</summary>
    public static PlanPoint Middle(IReadOnlyList<PlanPoint> ring)
    {
        var polygon = new GeometryFactory().CreatePolygon(Closed(ring));
        var centroid = new PlanPoint(polygon.Centroid.X, polygon.Centroid.Y);
        return Contains(ring, centroid) ? centroid : new(polygon.InteriorPoint.X, polygon.InteriorPoint.Y);
    }

    private static Coordinate[] Closed(IReadOnlyList<PlanPoint> ring) => [.. ring.Append(ring[0]).Select(p => new Coordinate(p.X, p.Y))];
}
