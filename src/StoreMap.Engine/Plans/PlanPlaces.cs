namespace StoreMap.Plans;

/// <summary>A place along a fixture's front, found from a point on the plan.</summary>
/// <param name="Fixture">The fixture.</param>
/// <param name="Along">Metres along its front (or its back) from the first point.</param>
/// <param name="OnBack">True on the far long edge of an island; <paramref name="Along"/> then runs along the back.</param>
/// <param name="Distance">Metres from the point to that place.</param>
public sealed record FrontPlace(Fixture Fixture, double Along, bool OnBack, double Distance);

/// <summary>Says what lies at a point of a plan. Points in plan metres.</summary>
public static class PlanPlaces
{
    /// <summary>How near a point must be to a front to belong to it: 3 ft, in metres.</summary>
    public const double FrontReach = 3 * LengthUnits.MetresPerFoot;

    // A step off the front into its aisle, to ask which room the aisle is; small against any doorway or aisle.
    private const double StepOff = 0.05;

    // Points on a wall belong to the room on whichever side is asked first; a millimetre is far below any drawing's truth.
    private const double WallTolerance = 0.001;

    // A drop in the gap between two cases is at the end of both.
    private const double BesideEnd = 0.5;

    /// <summary>The room a point lies in.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="p">Any point.</param>
    /// <returns>The id of the walk-in or else of the smallest room that holds the point; null on the sales floor and outside.</returns>
    public static string? RoomAt(Plan plan, PlanPoint p)
    {
        foreach (var fixture in plan.Fixtures)
        {
            if (fixture.Kind == FixtureKind.WalkIn && Rings.Covers(fixture.Outline, p, WallTolerance)) return fixture.Id;
        }

        string? best = null;
        var bestArea = double.PositiveInfinity;
        foreach (var room in plan.Rooms)
        {
            var area = Math.Abs(Rings.SignedArea(room.Outline));
            if (area < bestArea && Rings.Covers(room.Outline, p, WallTolerance)) (best, bestArea) = (room.Id, area);
        }

        return best;
    }

    /// <summary>True for a point in the store, its outer wall included.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="p">Any point.</param>
    public static bool IsInStore(Plan plan, PlanPoint p) => Rings.Covers(plan.Outline, p, WallTolerance);

    /// <summary>The fixture whose outline holds a point, walk-ins too; null when none does.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="p">Any point.</param>
    public static Fixture? FixtureAt(Plan plan, PlanPoint p) => plan.Fixtures.FirstOrDefault(f => Rings.Covers(f.Outline, p, WallTolerance));

    /// <summary>A name for people for what <see cref="RoomAt"/> returns: the room's name, the walk-in's, or "Sales floor".</summary>
    public static string RoomName(Plan plan, string? room) =>
        plan.Rooms.FirstOrDefault(r => r.Id == room)?.Name
        ?? (plan.FindFixture(room) is { } walkIn ? walkIn.Name ?? walkIn.Tag : room ?? "Sales floor");

    /// <summary>The nearest front, or an island's back, within reach of a point and on its side of the walls.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="p">Any point.</param>
    /// <param name="reach">Metres; by default 3 ft.</param>
    /// <returns>The place; null when no front is within reach. Of equally near ones the first in the plan.</returns>
    public static FrontPlace? NearestFront(Plan plan, PlanPoint p, double reach = FrontReach)
    {
        FrontPlace? best = null;
        var room = new Lazy<string?>(() => RoomAt(plan, p));
        foreach (var fixture in plan.Fixtures)
        {
            foreach (var onBack in new[] { false, true })
            {
                if ((onBack ? fixture.Back : fixture.Front) is not { } line) continue;
                var (along, distance) = line.Project(p);
                if (distance > reach || distance >= (best?.Distance ?? double.PositiveInfinity)) continue;
                if (RoomAt(plan, InAisle(fixture, along, onBack)) != room.Value) continue;
                best = new FrontPlace(fixture, along, onBack, distance);
            }
        }

        return best;
    }

    /// <summary>The place on the plan of a distance along a fixture: on its front or back; in the middle of a walk-in's outline box.</summary>
    /// <param name="fixture">The fixture.</param>
    /// <param name="along">Metres from the first point; clamped to the line. Ignored without a front.</param>
    /// <param name="onBack">True for an island's back; the front is taken when it has none.</param>
    public static PlanPoint PointOn(Fixture fixture, double along, bool onBack = false)
    {
        var line = onBack ? fixture.Back ?? fixture.Front : fixture.Front;
        if (line is not null) return line.PointAt(along);
        var (low, high) = Rings.Box(fixture.Outline);
        return (low + high) * 0.5;
    }

    /// <summary>A place just off a fixture's front or back, in the aisle it faces; on the plan of <see cref="PointOn"/> without one.</summary>
    /// <param name="fixture">The fixture.</param>
    /// <param name="along">Metres from the line's first point; clamped to the line.</param>
    /// <param name="onBack">True for an island's back.</param>
    internal static PlanPoint InAisle(Fixture fixture, double along, bool onBack)
    {
        if ((onBack ? fixture.Back : fixture.Front) is not { } line) return PointOn(fixture, along, onBack);
        // The back runs in the same sense as the front, so its aisle lies to the other hand.
        var d = line.DirectionAt(along);
        var sign = fixture.FrontStartsLeft != onBack ? 1 : -1;
        return line.PointAt(along) + (new PlanPoint(d.Y, -d.X) * (sign * StepOff));
    }

    /// <summary>The drops of a fixture that come down over it, and where along its front: one that feeds it through the case beside it does not.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="fixture">A fixture; one without a front has none.</param>
    public static IReadOnlyList<(Drop Drop, double Along, double Distance)> DropsOver(Plan plan, Fixture fixture)
    {
        if (fixture.Front is not { } front) return [];
        return
        [
            .. plan.Drops.Where(d => d.Fixtures.Contains(fixture.Id)).Select(d => (Drop: d, Place: front.Project(d.At)))
                .Where(d => Past(front, d.Drop.At, d.Place.Along) <= BesideEnd).Select(d => (d.Drop, d.Place.Along, d.Place.Distance)),
        ];
    }

    // How far beyond a front's end a point lies, in the front's direction there.
    private static double Past(PlanLine front, PlanPoint at, double along)
    {
        var (off, direction) = (at - front.PointAt(along), front.DirectionAt(along));
        return Math.Abs((off.X * direction.X) + (off.Y * direction.Y));
    }
}
