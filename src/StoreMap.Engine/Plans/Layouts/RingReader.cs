using NetTopologySuite.Operation.Valid;

namespace StoreMap.Plans;

/// <summary>Reads a ring: repeated corners are dropped in silence, the sense is made counter-clockwise, and what is no simple polygon is refused.</summary>
internal static class RingReader
{
    // Corners nearer to one line than a millimetre enclose nothing that could be drawn or built.
    private const double Flat = 0.001;

    /// <summary>Reads a required ring.</summary>
    /// <returns>Three or more corners, counter-clockwise, first not repeated; null, with errors, when absent or wrong.</returns>
    public static IReadOnlyList<PlanPoint>? Ring(this FieldReader reader, string field)
    {
        if (!reader.Require(field, "a ring of three or more points [[x, y], …]") || reader.Points(field) is not { } read) return null;
        var ring = PointReader.WithoutRepeats(read);
        if (ring.Count > 1 && ring[^1] == ring[0]) ring = [.. ring.Take(ring.Count - 1)];
        return ring.Count < 3
            ? Refuse(reader, field, "ring-points", $"A ring needs three or more different points; this one has {ring.Count}.")
            : IsFlat(ring)
                ? Refuse(reader, field, "ring-area", "The ring encloses no area: all its points lie on one line.")
                : Crossing(reader, field, ring) ? null : Rings.CounterClockwise(ring);
    }

    private static bool Crossing(FieldReader reader, string field, IReadOnlyList<PlanPoint> ring)
    {
        if (Spike(ring) is { } tip)
        {
            Refuse(reader, field, "ring-crosses-itself", $"The ring runs out and back on itself at {Say.Place(tip, reader.Unit)}; remove that point.");
            return true;
        }

        if (new IsValidOp(PlanShapes.Polygon(ring)).ValidationError is not { } error) return false;
        var place = Say.Place(PlanShapes.Point(error.Coordinate), reader.Unit);
        Refuse(reader, field, "ring-crosses-itself", $"The ring crosses or touches itself at {place}; put its corners in order round the shape.");
        return true;
    }

    private static PlanPoint? Spike(IReadOnlyList<PlanPoint> ring)
    {
        for (var i = 0; i < ring.Count; i++)
        {
            var into = ring[i] - ring[(i + ring.Count - 1) % ring.Count];
            var outOf = ring[(i + 1) % ring.Count] - ring[i];
            if (into.Cross(outOf) == 0 && into.Dot(outOf) < 0) return ring[i];
        }

        return null;
    }

    private static bool IsFlat(IReadOnlyList<PlanPoint> ring)
    {
        var far = ring.MaxBy(p => p.DistanceTo(ring[0]));
        var base_ = far - ring[0];
        return ring.All(p => Math.Abs(base_.Cross(p - ring[0])) <= Flat * far.DistanceTo(ring[0]));
    }

    private static IReadOnlyList<PlanPoint>? Refuse(FieldReader reader, string field, string rule, string message)
    {
        reader.Error(field, reader[field], rule, message);
        return null;
    }
}
