using StoreMap.Plans;

namespace StoreMap.Tests.Air;

/// <summary>Small plans, metres.</summary>
internal static class AirPlans
{
    /// <summary>A counter-clockwise rectangle.</summary>
    public static PlanPoint[] Box(double x0, double y0, double x1, double y1) => [new(x0, y0), new(x1, y0), new(x1, y1), new(x0, y1)];

    /// <summary>An empty hall.</summary>
    public static Plan Hall(double width, double height) => new() { Id = "hall", Name = "Hall", Outline = Box(0, 0, width, height) };

    /// <summary>A room with doorways.</summary>
    public static Room Room(string id, PlanPoint[] outline, params PlanSegment[] openings) =>
        new(id, id, RoomKind.Prep, outline, openings, false, 3);

    /// <summary>An obstacle.</summary>
    public static Obstacle Shelf(string id, double x0, double y0, double x1, double y1) => new(id, "shelving", Box(x0, y0, x1, y1));

    /// <summary>A case whose front is its lower edge, facing down.</summary>
    public static Fixture Case(
        string id, double x0, double y0, double x1, double y1, string? lineUp = null, FixtureKind kind = FixtureKind.OpenCase) => new()
        {
            Id = id,
            Tag = id,
            Kind = kind,
            LineUp = lineUp,
            Outline = Box(x0, y0, x1, y1),
            Front = new PlanLine([new(x0, y0), new(x1, y0)]),
            Back = kind == FixtureKind.IslandCase ? new PlanLine([new(x0, y1), new(x1, y1)]) : null,
            Sections = [new Section(1, 0, x1 - x0, 1, null)],
        };

    /// <summary>A walk-in with its doorway.</summary>
    public static Fixture WalkIn(string id, PlanPoint[] outline, PlanSegment opening) =>
        new() { Id = id, Tag = id, Kind = FixtureKind.WalkIn, Outline = outline, Opening = opening };

    /// <summary>A plan with every point moved.</summary>
    public static Plan Moved(Plan plan, Func<PlanPoint, PlanPoint> move, bool mirrored)
    {
        PlanPoint[] Ring(IReadOnlyList<PlanPoint> ring) => [.. (mirrored ? ring.Reverse() : ring).Select(move)];
        PlanSegment Piece(PlanSegment s) => new(move(s.A), move(s.B));
        PlanLine? Line(PlanLine? line) => line is null ? null : new PlanLine([.. line.Points.Select(move)]);
        return plan with
        {
            Outline = Ring(plan.Outline),
            Rooms = [.. plan.Rooms.Select(r => r with { Outline = Ring(r.Outline), Openings = [.. r.Openings.Select(Piece)] })],
            Obstacles = [.. plan.Obstacles.Select(o => o with { Outline = Ring(o.Outline) })],
            Fixtures =
            [
                .. plan.Fixtures.Select(f => f with
                {
                    Outline = Ring(f.Outline),
                    Front = Line(f.Front),
                    Back = Line(f.Back),
                    Opening = f.Opening is null ? null : Piece(f.Opening.Value),
                    FrontStartsLeft = f.FrontStartsLeft != mirrored,
                }),
            ],
        };
    }
}
