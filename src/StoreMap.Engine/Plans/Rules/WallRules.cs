using NetTopologySuite.Geometries;

namespace StoreMap.Plans;

/// <summary>Rooms' outlines are walls: what they run through is told, since the walk and the map will stop there.</summary>
internal static class WallRules
{
    private const long Corners = 400_000;

    /// <summary>Checks rooms against rooms and fixtures against rooms; what lies wholly inside is fine.</summary>
    public static void Check(Plan plan, ProblemList problems)
    {
        var budget = new PairBudget(Corners);
        var rooms = plan.Rooms.Select(r => (Box: Rings.Box(r.Outline), Shape: PlanShapes.Polygon(r.Outline))).ToList();
        for (var i = 0; i < rooms.Count; i++)
        {
            for (var j = i + 1; j < rooms.Count; j++)
            {
                if (!Overlap.BoxesMeet(rooms[i].Box, rooms[j].Box)) continue;
                if (!budget.Spend(plan.Rooms[i].Outline, plan.Rooms[j].Outline, problems)) return;
                if (!Cross(rooms[i].Shape, rooms[j].Shape)) continue;
                problems.Warn(plan.Rooms[j].Id, "outline", plan.Rooms[i].Id, "room-overlap", $"The room overlaps {Name(plan.Rooms[i])}; in the part they share the smaller room is taken, and both outlines are walls.");
            }
        }

        foreach (var fixture in plan.Fixtures)
        {
            var (box, shape) = (Rings.Box(fixture.Outline), PlanShapes.Polygon(fixture.Outline));
            for (var i = 0; i < rooms.Count; i++)
            {
                if (!Overlap.BoxesMeet(rooms[i].Box, box)) continue;
                if (!budget.Spend(plan.Rooms[i].Outline, fixture.Outline, problems)) return;
                if (!Cross(rooms[i].Shape, shape)) continue;
                problems.Warn(fixture.Id, "outline", plan.Rooms[i].Id, "through-wall", $"The wall of {Name(plan.Rooms[i])} runs through the fixture; it is used as drawn.");
            }
        }
    }

    private static string Name(Room room) => room.Name == room.Id ? $"room {room.Id}" : room.Name;

    // Both share floor, and each has floor of its own, deeper than a wall is thick.
    private static bool Cross(Geometry a, Geometry b) =>
        Overlap.IsDeeperThan(PlanShapes.Intersection(a, b), LayoutLimits.Slack)
        && Overlap.IsDeeperThan(PlanShapes.Difference(a, b), LayoutLimits.Slack)
        && Overlap.IsDeeperThan(PlanShapes.Difference(b, a), LayoutLimits.Slack);
}
