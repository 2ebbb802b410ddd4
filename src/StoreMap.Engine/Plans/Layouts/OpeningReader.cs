using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Reads a doorway and lays it on its wall: drawn up to 6 in off, as walls have thickness, it is moved there with a warning.</summary>
internal static class OpeningReader
{
    // Narrower than twice the usual body clearance of 0.3 m plus a hand's breadth, nobody walks through.
    private const double Narrow = 0.7;

    /// <summary>Reads a doorway on a ring's edge.</summary>
    /// <returns>The doorway on the edge; null, with an error, when it is none.</returns>
    public static PlanSegment? Read(FieldReader reader, string place, JsonNode? node, IReadOnlyList<PlanPoint> ring)
    {
        if (reader.SegmentOf(place, node) is not { } drawn) return null;
        var off = Off(drawn, ring);
        if (off > LayoutLimits.Slack + LayoutLimits.Tiny)
        {
            reader.Error(place, node, "opening-on-wall",
                $"The doorway lies {Say.Length(off, reader.Unit)} off the outline it should be in; both its ends and all between must lie along one wall of that outline.");
            return null;
        }

        var opening = new PlanSegment(Rings.NearestOnEdge(ring, drawn.A), Rings.NearestOnEdge(ring, drawn.B));
        if (opening.Length <= LayoutLimits.Rounding)
        {
            reader.Error(place, node, "opening-on-wall", "The doorway has no width along the wall of its outline; give its two ends on that wall.");
            return null;
        }

        if (off > LayoutLimits.Rounding) reader.Warn(place, node, "opening-off-wall", $"The doorway is drawn {Say.Length(off, reader.Unit)} off its wall; it is taken to be in the wall.");
        if (opening.Length < Narrow) reader.Warn(place, node, "opening-narrow", $"The doorway is only {Say.Length(opening.Length, reader.Unit)} wide; a person needs about {Say.Length(Narrow, reader.Unit)}.");
        return opening;
    }

    // The farthest of nine places along the doorway from the wall; more would add nothing on walls drawn with straight edges.
    private static double Off(PlanSegment drawn, IReadOnlyList<PlanPoint> ring) =>
        Enumerable.Range(0, 9).Max(i => Rings.DistanceToEdge(ring, drawn.A + ((drawn.B - drawn.A) * (i / 8.0))));
}
