using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>Gives a fixture another depth, and a walk-in another width. A case's front stays where it is; of a walk-in the left corner of the
/// side with its doorway stays, and the doorway keeps its width where there is room.</summary>
/// <param name="Id">The fixture.</param>
/// <param name="Width">A walk-in's width along the side with its doorway, above 0; null for a case, whose length is that of its sections.</param>
/// <param name="Depth">Depth from front to back, above 0.</param>
public sealed record FixtureSizeEdit(string Id, double? Width, double Depth) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (layout.Find(Id) is not ("fixtures", var fixture) || FixtureFrame.Of(fixture) is not { } frame) return [];
        var walkIn = FixtureFrame.IsWalkIn(fixture);
        var (wide, deep) = (walkIn && Width is { } width ? width / frame.Width : 1, Depth / frame.Depth);
        var door = FixtureFrame.Points(fixture["opening"]);
        LayoutElementsJson.Map(fixture, (x, y) =>
        {
            var p = new PlanPoint(x, y);
            var (right, back) = frame.In(p);
            var q = frame.Shifted(p, right * (wide - 1), back * (deep - 1));
            return (q.X, q.Y);
        });
        if (walkIn && wide != 1) fixture["opening"] = Doorway(fixture, door[0].DistanceTo(door[1]));
        return [Id];
    }

    // About the middle of where it came to, no farther than its wall goes.
    private static JsonNode? Doorway(JsonObject fixture, double was)
    {
        if (FixtureFrame.Wall(fixture) is not { } wall) return fixture["opening"]?.DeepClone();
        var door = FixtureFrame.Points(fixture["opening"]);
        var half = Math.Min(was, wall.Length) / 2;
        var middle = Math.Clamp(wall.A.DistanceTo(wall.Nearest((door[0] + door[1]) * 0.5)), half, wall.Length - half);
        var direction = (wall.B - wall.A) * (1 / wall.Length);
        var (a, b) = (wall.A + (direction * (middle - half)), wall.A + (direction * (middle + half)));
        return (door[1] - door[0]).Dot(direction) >= 0 ? FixtureFrame.Line(a, b) : FixtureFrame.Line(b, a);
    }
}
