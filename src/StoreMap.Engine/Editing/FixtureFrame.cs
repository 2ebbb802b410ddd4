using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>A fixture as one sees it who stands before its front, or before a walk-in's doorway: left to right, front to back. Lengths in the
/// layout's unit.</summary>
public sealed class FixtureFrame
{
    // Of a front's length; what is bent more than that has no left and right of its own.
    private const double Straight = 1e-3;
    private const double DoorFrom = 0.35;
    private const double DoorTo = 0.65;

    private readonly PlanPoint left;
    private readonly PlanPoint along;

    private FixtureFrame(PlanPoint left, PlanPoint along, double width, double depth, bool startsLeft) =>
        (this.left, this.along, Width, Depth, StartsLeft) = (left, along, width, depth, startsLeft);

    /// <summary>Length of a case's front; of a walk-in, from its left side to its right side.</summary>
    public double Width { get; }

    /// <summary>From front to back.</summary>
    public double Depth { get; }

    /// <summary>True when the front, and with it the sections, are written from the left end on.</summary>
    public bool StartsLeft { get; }

    /// <summary>Looks at a fixture.</summary>
    /// <param name="fixture">The fixture as the file has it.</param>
    /// <returns>Null for a front that is bent, and for what lacks its outline or its front or doorway.</returns>
    public static FixtureFrame? Of(JsonObject fixture)
    {
        if (Ring(fixture) is not { } ring) return null;
        if (IsWalkIn(fixture)) return Wall(fixture) is { } wall ? WalkIn(ring, wall) : null;
        var front = Points(fixture["front"]);
        if (front.Count < 2 || front[0].DistanceTo(front[^1]) is not (> 0 and var length)) return null;
        var startsLeft = FrontSide.StartsLeft(ring, new PlanLine(front));
        var (a, b) = startsLeft ? (front[0], front[^1]) : (front[^1], front[0]);
        var frame = new FixtureFrame(a, (b - a) * (1 / length), length, 0, startsLeft);
        if (front.Any(p => Math.Abs(frame.In(p).Back) > Straight * length)) return null;
        var depth = ring.Max(p => frame.In(p).Back);
        return depth > 0 ? new FixtureFrame(a, frame.along, length, depth, startsLeft) : null;
    }

    /// <summary>The wall of a walk-in that its doorway is in, from its left end; null when it has none.</summary>
    internal static PlanSegment? Wall(JsonObject walkIn)
    {
        var opening = Points(walkIn["opening"]);
        if (Ring(walkIn) is not { } ring || opening.Count != 2) return null;
        var door = new PlanSegment(opening[0], opening[1]);
        return Rings.Edges(ring).MinBy(e => e.Nearest(door.A).DistanceTo(door.A) + e.Nearest(door.B).DistanceTo(door.B));
    }

    /// <summary>A doorway in the middle of a wall.</summary>
    internal static JsonArray Doorway(PlanPoint a, PlanPoint b) => Line(a + ((b - a) * DoorFrom), a + ((b - a) * DoorTo));

    /// <summary>Points of a field that can be read.</summary>
    internal static IReadOnlyList<PlanPoint> Points(JsonNode? field) =>
        field is JsonArray points ? [.. points.OfType<JsonArray>().Where(p => p.Count == 2).Select(p => new PlanPoint((double)p[0]!, (double)p[1]!))] : [];

    internal static JsonArray Line(PlanPoint a, PlanPoint b) => [LayoutElementsJson.Point(a.X, a.Y), LayoutElementsJson.Point(b.X, b.Y)];

    internal static bool IsWalkIn(JsonObject fixture) => fixture["kind"].Text() == FixtureKind.WalkIn.Kebab();

    /// <summary>How far right of the left end, and how far back of the front, a point is.</summary>
    internal (double Right, double Back) In(PlanPoint p) => ((p - left).Dot(along), along.Cross(p - left));

    /// <summary>The plan's point that far right and back of another.</summary>
    internal PlanPoint Shifted(PlanPoint p, double right, double back) =>
        new(p.X + (right * along.X) - (back * along.Y), p.Y + (right * along.Y) + (back * along.X));

    private static FixtureFrame? WalkIn(IReadOnlyList<PlanPoint> ring, PlanSegment wall)
    {
        var rough = new FixtureFrame(wall.A, (wall.B - wall.A) * (1 / wall.Length), 0, 0, true);
        List<(double Right, double Back)> corners = [.. ring.Select(rough.In)];
        var (right, back) = (corners.Min(c => c.Right), corners.Min(c => c.Back));
        return new FixtureFrame(rough.Shifted(wall.A, right, back), rough.along, corners.Max(c => c.Right) - right, corners.Max(c => c.Back) - back, true);
    }

    private static IReadOnlyList<PlanPoint>? Ring(JsonObject fixture) => Points(fixture["outline"]) is { Count: > 2 } ring ? Rings.CounterClockwise(ring) : null;
}
