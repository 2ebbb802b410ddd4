using StoreMap.Plans;

namespace StoreMap.Air;

/// <summary>All barriers of a plan, in the plan's order.</summary>
internal static class BarrierList
{
    /// <summary>How far a doorway or a front may be drawn off its wall and still open it, metres.</summary>
    public const double Tolerance = 0.1;

    /// <summary>Collects obstacles' edges, rooms' and walk-ins' walls with their openings, and cases' sides with their fronts.</summary>
    /// <remarks>A doorway opens every room and walk-in wall it lies on (neighbouring rooms share theirs), and so does a case's
    /// front, since a case built into a wall is reached through it.</remarks>
    public static List<Barrier> Of(Plan plan, AirSettings settings)
    {
        var doorways = new List<(PlanSegment, double)>();
        foreach (var room in plan.Rooms) doorways.AddRange(room.Openings.Select(o => (o, 1.0)));
        foreach (var f in plan.Fixtures.Where(f => f is { Kind: FixtureKind.WalkIn, Opening: not null }))
            doorways.Add((f.Opening!.Value, settings.DoorwayOpenness));
        foreach (var f in plan.Fixtures.Where(f => f.Kind != FixtureKind.WalkIn)) doorways.AddRange(OpenSides(f, 1));

        var list = new List<Barrier>();
        for (var i = 0; i < plan.Obstacles.Count; i++) AddRing(list, plan.Obstacles[i].Outline, BarrierKind.Obstacle, i, []);
        for (var i = 0; i < plan.Rooms.Count; i++) AddRing(list, plan.Rooms[i].Outline, BarrierKind.Room, i, doorways);
        for (var i = 0; i < plan.Fixtures.Count; i++)
        {
            var fixture = plan.Fixtures[i];
            if (fixture.Kind == FixtureKind.WalkIn)
            {
                AddRing(list, fixture.Outline, BarrierKind.WalkIn, i, doorways);
                continue;
            }

            AddRing(list, fixture.Outline, BarrierKind.Case, i, OpenSides(fixture, settings.FrontOpenness));
            if (settings.SectionOpenness < 1) AddSectionEnds(list, fixture, i, settings.SectionOpenness);
        }

        return list;
    }

    private static List<(PlanSegment Piece, double Openness)> OpenSides(Fixture fixture, double openness)
    {
        var sides = new List<(PlanSegment, double)>();
        foreach (var line in new[] { fixture.Front, fixture.Back })
        {
            for (var i = 0; i + 1 < (line?.Points.Count ?? 0); i++)
                sides.Add((new PlanSegment(line!.Points[i], line.Points[i + 1]), openness));
        }

        return sides;
    }

    private static void AddRing(
        List<Barrier> list, IReadOnlyList<PlanPoint> ring, BarrierKind kind, int owner, IEnumerable<(PlanSegment, double)> openings)
    {
        for (var i = 0; i < ring.Count; i++) Add(list, new PlanSegment(ring[i], ring[(i + 1) % ring.Count]), kind, owner, openings);
    }

    // A section's end runs from the front straight back; a line longer than any case is deep does no harm, since a section
    // barrier stands only between cells of its own case.
    private static void AddSectionEnds(List<Barrier> list, Fixture fixture, int owner, double openness)
    {
        const double Depth = 5;
        if (fixture.Front is null) return;
        foreach (var section in fixture.Sections.SkipLast(1))
        {
            var at = fixture.Front.PointAt(section.To);
            var end = new PlanSegment(at, at - (fixture.OutwardAt(section.To) * Depth));
            Add(list, end, BarrierKind.Section, owner, [(end, openness)]);
        }
    }

    private static void Add(
        List<Barrier> list, PlanSegment wall, BarrierKind kind, int owner, IEnumerable<(PlanSegment, double)> openings)
    {
        var (a, b) = (PlanLattice.Snap(wall.A), PlanLattice.Snap(wall.B));
        if (a != b) list.Add(new Barrier(a, b, kind, owner, Barrier.GapsOf(wall, openings, Tolerance)));
    }
}
