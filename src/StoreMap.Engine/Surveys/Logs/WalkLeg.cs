using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>The way between two neighbouring marks of a walk: along a front when both lie on it, else along the fronts at both ends and
/// straight between them.</summary>
internal sealed class WalkLeg
{
    private readonly Plan plan;
    private readonly ReadingPlace first;
    private readonly ReadingPlace last;
    private readonly bool oneFront;
    private readonly PlanLine path;

    public WalkLeg(Plan plan, ReadingPlace from, ReadingPlace to)
    {
        (this.plan, first, last) = (plan, from, to);
        oneFront = from.Fixture == to.Fixture && from.OnBack == to.OnBack && from.Along is not null && to.Along is not null;
        path = new PlanLine(oneFront ? Part(LineOf(from)!, from.Along!.Value, to.Along!.Value) : Between());
        Length = path.Length;
    }

    /// <summary>Metres.</summary>
    public double Length { get; }

    /// <summary>The place at a distance from the leg's start, metres.</summary>
    public ReadingPlace PlaceAt(double distance)
    {
        if (Length <= 0) return first;
        var share = Math.Clamp(distance / Length, 0, 1);
        var at = path.PointAt(share * Length);
        if (oneFront) return first with { Point = null, Along = first.Along + (share * (last.Along - first.Along)), At = at };
        var room = PlanPlaces.RoomAt(plan, at);
        if (plan.FindFixture(room) is { } walkIn) return new ReadingPlace { Fixture = walkIn.Id, At = at, Room = room };
        return PlanPlaces.NearestFront(plan, at) is { } near
            ? new ReadingPlace { Fixture = near.Fixture.Id, Along = near.Along, OnBack = near.OnBack, At = at, Room = room }
            : new ReadingPlace { At = at, Room = room };
    }

    private PlanLine? LineOf(ReadingPlace place) =>
        place.Along is null ? null : place.OnBack ? plan.FindFixture(place.Fixture)?.Back : plan.FindFixture(place.Fixture)?.Front;

    private List<PlanPoint> Between()
    {
        var points = new List<PlanPoint>();
        points.AddRange(LineOf(first) is { } begun ? ToNearerEnd(begun, first.Along!.Value, last.At) : [first.At]);
        var ending = LineOf(last) is { } line ? ToNearerEnd(line, last.Along!.Value, first.At) : [last.At];
        ending.Reverse();
        points.AddRange(ending);
        return points;
    }

    private static List<PlanPoint> ToNearerEnd(PlanLine line, double along, PlanPoint towards) =>
        Part(line, along, line.Points[0].DistanceTo(towards) < line.Points[^1].DistanceTo(towards) ? 0 : line.Length);

    // The points of a line from one distance to another, both ways round.
    private static List<PlanPoint> Part(PlanLine line, double start, double end)
    {
        var points = new List<PlanPoint> { line.PointAt(start) };
        var corner = 0.0;
        var between = new List<PlanPoint>();
        for (var i = 0; i < line.Points.Count; i++)
        {
            if (i > 0) corner += line.Points[i - 1].DistanceTo(line.Points[i]);
            if (corner > Math.Min(start, end) && corner < Math.Max(start, end)) between.Add(line.Points[i]);
        }

        if (start > end) between.Reverse();
        points.AddRange(between);
        points.Add(line.PointAt(end));
        return points;
    }
}
