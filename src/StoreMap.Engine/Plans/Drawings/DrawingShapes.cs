using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;

namespace StoreMap.Plans;

/// <summary>Pure functions on a drawing's figures, metres.</summary>
internal static class DrawingShapes
{
    private const double WallThickness = 0.1;

    // Corners nearer than this, or less out of line, are dropped: 2 mm.
    private const double Fine = 0.002;

    private static readonly BufferParameters Square = new(1, EndCapStyle.Square, JoinStyle.Mitre, 2);

    /// <summary>True for a ring of some area that does not cross itself.</summary>
    public static bool IsSound(IReadOnlyList<PlanPoint> ring) =>
        ring.Count >= 3 && ring.Distinct().Count() == ring.Count && Math.Abs(Rings.SignedArea(ring)) > 0.01 && PlanShapes.Polygon(ring).IsValid;

    /// <summary>The ring without corners that the eye would not see.</summary>
    public static IReadOnlyList<PlanPoint> Cleaned(IReadOnlyList<PlanPoint> ring)
    {
        List<PlanPoint> kept = [.. ring];
        for (var i = 0; i < kept.Count && kept.Count > 3;)
        {
            var (before, after) = (kept[(i + kept.Count - 1) % kept.Count], kept[(i + 1) % kept.Count]);
            if (new PlanSegment(before, after).Nearest(kept[i]).DistanceTo(kept[i]) < Fine) kept.RemoveAt(i);
            else i++;
        }

        return kept;
    }

    /// <summary>The figure that a wall drawn as a line covers, 0.1 m thick; none when it closes on itself.</summary>
    public static IReadOnlyList<PlanPoint>? Wall(IReadOnlyList<PlanPoint> line)
    {
        var wall = BufferOp.Buffer(PlanShapes.Line(line), WallThickness / 2, Square);
        return wall is Polygon { NumInteriorRings: 0 } polygon ? [.. polygon.ExteriorRing.Coordinates.SkipLast(1).Select(PlanShapes.Point)] : null;
    }

    /// <summary>How far one can look from the middle of an edge, square to it and away from the ring, before something stands in the way; at most <paramref name="most"/> metres.</summary>
    /// <param name="edge">An edge of a counter-clockwise ring, in its sense.</param>
    /// <param name="others">Edges of all else.</param>
    /// <param name="most">Where to stop looking.</param>
    public static double Clear(PlanSegment edge, IReadOnlyList<PlanSegment> others, double most)
    {
        var along = edge.B - edge.A;
        var outward = new PlanPoint(along.Y, -along.X) * (1 / edge.Length);
        var eye = edge.Middle + (outward * Fine);
        var clear = most;
        foreach (var other in others)
        {
            var across = other.B - other.A;
            var denominator = outward.Cross(across);
            if (Math.Abs(denominator) < 1e-12) continue;
            double far = (other.A - eye).Cross(across) / denominator, at = (other.A - eye).Cross(outward) / denominator;
            if (at is >= 0 and <= 1 && far >= 0) clear = Math.Min(clear, far);
        }

        return clear;
    }

    /// <summary>The middle of a figure's box or a line's.</summary>
    public static PlanPoint Middle(IReadOnlyList<PlanPoint> points)
    {
        var (low, high) = Rings.Box(points);
        return (low + high) * 0.5;
    }
}
