using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Polygonize;
using NetTopologySuite.Operation.Union;

namespace StoreMap.Plans;

/// <summary>Finds the store's outline among the walls of a drawing.</summary>
internal static class DrawingOutline
{
    // Ends of wall lines that ought to meet are drawn a little apart.
    private const double Gap = 0.02;

    private const double ThickestWall = 0.6;

    /// <summary>The largest closed figure among <paramref name="walls"/>, or the outer ring that their lines make; null when there is none.</summary>
    /// <param name="walls">Shapes whose role is outline, or wall when there is none.</param>
    /// <param name="inside">Shapes that stand in the store: of walls drawn with both faces the inner one counts, unless these reach beyond it.</param>
    public static IReadOnlyList<PlanPoint>? Of(IReadOnlyList<DrawnShape> walls, IReadOnlyList<DrawnShape> inside)
    {
        var closed = walls.Where(s => s.Closed && DrawingShapes.IsSound(s.Points)).Select(s => s.Points).MaxBy(Area);
        var joined = Joined(walls);
        if (closed is null || joined is null || Area(joined) <= 1.01 * Area(closed)) closed ??= joined;
        else closed = joined;
        return closed is null ? null : InnerFace(closed, walls, inside);
    }

    private static double Area(IReadOnlyList<PlanPoint> ring) => Math.Abs(Rings.SignedArea(ring));

    // Outer walls are often drawn with both their faces; walk-ins often stand in the thickness of the wall.
    private static IReadOnlyList<PlanPoint> InnerFace(IReadOnlyList<PlanPoint> outer, IReadOnlyList<DrawnShape> walls, IReadOnlyList<DrawnShape> inside) =>
        walls.Where(s => s.Closed && DrawingShapes.IsSound(s.Points) && Area(s.Points) > 0.7 * Area(outer)
                && s.Points.All(p => Rings.Covers(outer, p, Gap) && Rings.DistanceToEdge(outer, p) < ThickestWall)
                && outer.All(p => Rings.DistanceToEdge(s.Points, p) < ThickestWall * Math.Sqrt(2))
                && inside.SelectMany(i => i.Points).All(p => !Rings.Contains(outer, p) || Rings.Covers(s.Points, p, LayoutLimits.Slack)))
            .Select(s => s.Points).MinBy(Area) ?? outer;

    private static IReadOnlyList<PlanPoint>? Joined(IReadOnlyList<DrawnShape> walls)
    {
        // Rounded to the gap, so that ends that nearly meet do meet.
        static Coordinate Snap(PlanPoint p) => new(Math.Round(p.X / Gap) * Gap, Math.Round(p.Y / Gap) * Gap);
        var lines = walls.Where(s => !s.Closed).Select(s => s.Points.Select(Snap).Distinct().ToArray()).Where(c => c.Length > 1)
            .Select(c => (Geometry)PlanShapes.Factory.CreateLineString(c)).ToList();
        if (lines.Count == 0) return null;
        var polygonizer = new Polygonizer();
        polygonizer.Add(UnaryUnionOp.Union(lines));
        var polygons = polygonizer.GetPolygons();
        if (polygons.Count == 0) return null;
        var whole = UnaryUnionOp.Union(polygons);
        var largest = Enumerable.Range(0, whole.NumGeometries).Select(whole.GetGeometryN).OfType<Polygon>().MaxBy(p => p.Area);
        return largest is null ? null : [.. largest.ExteriorRing.Coordinates.SkipLast(1).Select(PlanShapes.Point)];
    }
}
