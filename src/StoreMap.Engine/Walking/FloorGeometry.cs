using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;
using NetTopologySuite.Operation.Overlay;
using NetTopologySuite.Operation.OverlayNG;
using NetTopologySuite.Operation.Valid;
using StoreMap.Plans;

namespace StoreMap.Walking;

/// <summary>The free floor as polygons on the lattice: outline less what blocks, offset by the clearance.</summary>
/// <remarks>Union, offset and difference are NetTopologySuite's, in lattice steps with snap rounding, so every corner of the result
/// is a whole number. Rings are sorted first: their order in the input does not reach the result.</remarks>
internal static class FloorGeometry
{
    /// <summary>Half the thickness given to a wall that is a bare line, lattice steps (0.1 µm), so that it can't be crossed.</summary>
    private const double HalfThinWall = 10;

    /// <summary>A mitre longer than twice the clearance is cut.</summary>
    private const double MitreLimit = 2;

    private static readonly GeometryFactory Factory = new(new PrecisionModel(PrecisionModels.Floating));
    private static readonly PrecisionModel Steps = new(1);

    /// <summary>Builds the free floor.</summary>
    /// <param name="outline">Ring of the outer walls, metres.</param>
    /// <param name="blocks">Rings that can't be entered; may touch and overlap anything.</param>
    /// <param name="walls">Wall lines without thickness.</param>
    /// <param name="clearanceMetres">Distance kept from everything that blocks.</param>
    /// <returns>The polygons, largest first, none when no floor is left.</returns>
    public static List<Polygon> Build(
        IReadOnlyList<PlanPoint> outline, IEnumerable<IReadOnlyList<PlanPoint>> blocks, IEnumerable<IReadOnlyList<PlanPoint>> walls,
        double clearanceMetres)
    {
        var clearance = Lattice.FromMetres(clearanceMetres);
        Geometry floor = Ring(outline);
        var solid = Unite(blocks.Select(Ring));
        if (solid is not null) floor = OverlayNG.Overlay(floor, solid, SpatialFunction.Difference, Steps);
        var lines = walls.Select(Line).ToList();
        lines.Sort();
        if (clearance > 0) floor = UnaryUnionNG.Union(Offset(floor, -clearance), Steps);
        var thick = Unite(lines.Select(line => Offset(line, clearance > 0 ? clearance : HalfThinWall)));
        if (thick is not null) floor = OverlayNG.Overlay(floor, thick, SpatialFunction.Difference, Steps);

        var polygons = new List<Polygon>();
        for (var i = 0; i < floor.NumGeometries; i++)
        {
            if (floor.GetGeometryN(i) is Polygon { IsEmpty: false } polygon) polygons.Add(polygon);
        }

        foreach (var polygon in polygons) polygon.Normalize();
        polygons.Sort((a, b) => a.Area != b.Area ? b.Area.CompareTo(a.Area) : a.CompareTo(b));
        return polygons;
    }

    private static Geometry? Unite(IEnumerable<Geometry> parts)
    {
        var sorted = parts.ToList();
        foreach (var part in sorted) part.Normalize();
        sorted.Sort();
        return sorted.Count == 0 ? null : UnaryUnionNG.Union(sorted, Steps);
    }

    private static Geometry Offset(Geometry what, double distance)
    {
        // Without simplification the offset is exact; the square cap keeps the clearance at a wall's free end.
        var how = new BufferParameters(8, EndCapStyle.Square, JoinStyle.Mitre, MitreLimit) { SimplifyFactor = 0 };
        return BufferOp.Buffer(what, distance, how);
    }

    private static Polygon Ring(IReadOnlyList<PlanPoint> ring)
    {
        var coordinates = new Coordinate[ring.Count + 1];
        for (var i = 0; i < ring.Count; i++) coordinates[i] = At(ring[i]);
        coordinates[^1] = coordinates[0].Copy();
        if (ring.Count < 3) throw Refused(ring, "has fewer than three corners");
        var polygon = Factory.CreatePolygon(coordinates);
        var valid = new IsValidOp(polygon);
        if (!valid.IsValid) throw Refused(ring, valid.ValidationError.Message.ToLowerInvariant());
        return polygon;
    }

    private static LineString Line(IReadOnlyList<PlanPoint> line) =>
        Factory.CreateLineString(line.Select(At).ToArray());

    private static Coordinate At(PlanPoint p)
    {
        if (!(Math.Abs(p.X) <= Lattice.ReachMetres && Math.Abs(p.Y) <= Lattice.ReachMetres))
        {
            throw new ArgumentOutOfRangeException(nameof(p), p, "A coordinate must lie within 100 km of the origin.");
        }

        return new Coordinate(Lattice.FromMetres(p.X), Lattice.FromMetres(p.Y));
    }

    private static RefusedInputException Refused(IReadOnlyList<PlanPoint> ring, string what) => new(
    [
        new Problem(Severity.Error, null, ring.Count > 0 ? FormattableString.Invariant($"ring at {ring[0].X:0.###}, {ring[0].Y:0.###} m") : "ring", "outline", null,
            "ring-simple", $"This outline {what}. A ring must go round once without crossing itself."),
    ]);
}
