using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.OverlayNG;

namespace StoreMap.Plans;

/// <summary>Turns plan rings and lines into the geometry library's shapes, metres for metres, and back.</summary>
internal static class PlanShapes
{
    /// <summary>Makes shapes in plain double precision.</summary>
    public static readonly GeometryFactory Factory = new(new PrecisionModel(), 0);

    /// <summary>A ring as a polygon.</summary>
    public static Polygon Polygon(IReadOnlyList<PlanPoint> ring) =>
        Factory.CreatePolygon([.. ring.Select(Coordinate), Coordinate(ring[0])]);

    /// <summary>A line as a line string.</summary>
    public static LineString Line(IReadOnlyList<PlanPoint> points) => Factory.CreateLineString([.. points.Select(Coordinate)]);

    /// <summary>A segment as a line string.</summary>
    public static LineString Line(PlanSegment segment) => Line([segment.A, segment.B]);

    /// <summary>The floor that both shapes claim; does not fail on nearly touching edges.</summary>
    public static Geometry Intersection(Geometry a, Geometry b) => OverlayNGRobust.Overlay(a, b, NetTopologySuite.Operation.Overlay.SpatialFunction.Intersection);

    /// <summary>The floor of the first shape that the second leaves over; does not fail on nearly touching edges.</summary>
    public static Geometry Difference(Geometry a, Geometry b) => OverlayNGRobust.Overlay(a, b, NetTopologySuite.Operation.Overlay.SpatialFunction.Difference);

    /// <summary>A plan point as the library's coordinate.</summary>
    public static Coordinate Coordinate(PlanPoint p) => new(p.X, p.Y);

    /// <summary>The library's coordinate as a plan point.</summary>
    public static PlanPoint Point(Coordinate c) => new(c.X, c.Y);
}
