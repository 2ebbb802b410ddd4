using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Reads points, lines and rings; coordinates in the layout's unit become metres.</summary>
internal static class PointReader
{
    /// <summary>A point <c>[x, y]</c>; null when absent or wrong.</summary>
    public static PlanPoint? Point(this FieldReader reader, string field) =>
        reader[field] is { } node ? PointOf(reader, field, node) : null;

    /// <summary>A list of points; null when absent or when any of them is wrong.</summary>
    public static IReadOnlyList<PlanPoint>? Points(this FieldReader reader, string field) =>
        reader[field] is { } node ? PointsOf(reader, field, node) : null;

    /// <summary>A line of two or more distinct points, repeats dropped; null when absent or wrong.</summary>
    public static PlanLine? Line(this FieldReader reader, string field)
    {
        if (reader.Points(field) is not { } read) return null;
        var points = WithoutRepeats(read);
        if (points.Count >= 2) return new PlanLine(points);
        reader.Error(field, reader[field], "line-points", $"A line needs two or more different points; this one has {points.Count}.");
        return null;
    }

    /// <summary>A straight piece of exactly two different points; null when wrong.</summary>
    public static PlanSegment? SegmentOf(this FieldReader reader, string place, JsonNode? node)
    {
        if (PointsOf(reader, place, node) is not { } points) return null;
        if (points.Count == 2 && points[0] != points[1]) return new PlanSegment(points[0], points[1]);
        reader.Error(place, node, "segment-points", "A doorway is two different points, [[x, y], [x, y]].");
        return null;
    }

    /// <summary>The points of a node; null when any of them is wrong.</summary>
    public static IReadOnlyList<PlanPoint>? PointsOf(this FieldReader reader, string place, JsonNode? node)
    {
        if (node is not JsonArray array)
        {
            reader.WrongType(place, node, "a list of points [[x, y], …]");
            return null;
        }

        if (array.Count > LayoutLimits.Points)
        {
            reader.Error(place, null, "list-length", $"The list has {array.Count} points; at most {LayoutLimits.Points} are allowed.");
            return null;
        }

        var points = new List<PlanPoint>(array.Count);
        for (var i = 0; i < array.Count; i++)
        {
            if (PointOf(reader, $"{place}[{i}]", array[i]) is { } point) points.Add(point);
        }

        return points.Count == array.Count ? points : null;
    }

    /// <summary>Points without those that repeat the one before.</summary>
    public static IReadOnlyList<PlanPoint> WithoutRepeats(IReadOnlyList<PlanPoint> points) =>
        [.. points.Where((p, i) => i == 0 || p != points[i - 1])];

    private static PlanPoint? PointOf(FieldReader reader, string place, JsonNode? node)
    {
        if (node is not JsonArray { Count: 2 } pair || pair[0] is null || pair[1] is null)
        {
            reader.WrongType(place, node, "a point, two numbers [x, y]");
            return null;
        }

        var x = reader.LengthOf(place, pair[0], -LayoutLimits.Coordinate, LayoutLimits.Coordinate);
        var y = reader.LengthOf(place, pair[1], -LayoutLimits.Coordinate, LayoutLimits.Coordinate);
        return x is { } px && y is { } py ? new PlanPoint(px, py) : null;
    }
}
