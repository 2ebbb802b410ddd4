using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Tests.Walking;

/// <summary>Small scenes for tests.</summary>
internal static class Scene
{
    public static List<PlanPoint> Box(double x1, double y1, double x2, double y2) => [new(x1, y1), new(x2, y1), new(x2, y2), new(x1, y2)];

    public static Plan Plan(
        IReadOnlyList<PlanPoint> outline, IReadOnlyList<Room>? rooms = null, IReadOnlyList<Fixture>? fixtures = null,
        IReadOnlyList<Obstacle>? obstacles = null) => new()
    {
        Id = "scene",
        Name = "Scene",
        Outline = outline,
        Rooms = rooms ?? [],
        Fixtures = fixtures ?? [],
        Obstacles = obstacles ?? [],
    };

    public static Room Room(string id, IReadOnlyList<PlanPoint> outline, params PlanSegment[] openings) =>
        new(id, id, RoomKind.Prep, outline, openings, false, 3);

    public static Fixture WalkIn(string id, IReadOnlyList<PlanPoint> outline, PlanSegment opening) => new()
    {
        Id = id,
        Tag = id,
        Kind = FixtureKind.WalkIn,
        Outline = outline,
        Opening = opening,
    };

    public static WalkingPaths Paths(Plan plan, double clearance = 0) => new(FreeFloor.Build(plan, clearance));

    public static WalkingPaths Paths(IReadOnlyList<PlanPoint> outline, double clearance, params IReadOnlyList<PlanPoint>[] obstacles) =>
        new(FreeFloor.Build(outline, obstacles, clearance));

    /// <summary>Length over corners given by hand.</summary>
    public static double Over(params PlanPoint[] corners) => corners.Zip(corners.Skip(1), (p, q) => p.DistanceTo(q)).Sum();
}
