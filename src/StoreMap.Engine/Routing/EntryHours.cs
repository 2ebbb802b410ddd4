using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>A room or area that may be entered at certain hours only.</summary>
/// <param name="Id">Id of the room or area.</param>
/// <param name="Name">Its name for people.</param>
/// <param name="Hours">Store times between which one may be inside, at least one; past midnight when the second comes first.</param>
public sealed record TimedPlace(string Id, string Name, IReadOnlyList<(TimeOnly From, TimeOnly To)> Hours);

/// <summary>Which hours hold at a probe point, and what they come to on a walk that begins at a stated time.</summary>
internal static class EntryHours
{
    private const double Day = 24 * 60;

    /// <summary>A step out of a walk-in's doorway, metres.</summary>
    private const double OutOfTheDoor = 0.5;

    /// <summary>The rooms and areas with hours that a point lies in; a walk-in is entered from where its doorway leads. The zero, read in clean
    /// air, has none.</summary>
    public static IEnumerable<TimedPlace> At(Plan plan, ProbePoint point)
    {
        if (point.Pass == ProbePass.Zero || (plan.Areas.Count == 0 && plan.Rooms.All(r => r.Entry.Count == 0))) return [];
        var stand = plan.FindFixture(point.Fixture) is { Kind: FixtureKind.WalkIn, Opening: { } door } walkIn ? BeforeTheDoor(walkIn, door) : point.Stand;
        List<Room> rooms = [.. plan.Rooms.Where(r => r.Id == point.Room || Rings.Covers(r.Outline, stand, 0))];
        return rooms.Count > 0
            ? rooms.Where(r => r.Entry.Count > 0).Select(r => new TimedPlace(r.Id, r.Name, r.Entry))
            : plan.Areas.Where(a => Rings.Covers(a.Outline, stand, 0)).Select(a => new TimedPlace(a.Id, a.Name, a.Entry));
    }

    /// <summary>The stretches of time in which all the hours hold, minutes after the begin, from a day before it to two days after.</summary>
    public static (double From, double To)[] Minutes(IEnumerable<TimedPlace> places, TimeOnly begin)
    {
        List<(double From, double To)> open = [(-Day, 2 * Day)];
        foreach (var place in places)
        {
            List<(double From, double To)> hours =
            [
                .. place.Hours.SelectMany(h => new[] { -2, -1, 0, 1 }.Select(day => (h.From - begin).TotalMinutes + (day * Day)).Select(from => (from, from + (h.To - h.From).TotalMinutes))),
            ];
            open = [.. open.SelectMany(o => hours.Select(h => (From: Math.Max(o.From, h.From), To: Math.Min(o.To, h.To)))).Where(o => o.To > o.From)];
        }

        return [.. open.Order()];
    }

    private static PlanPoint BeforeTheDoor(Fixture walkIn, PlanSegment door)
    {
        var along = door.B - door.A;
        var across = new PlanPoint(-along.Y, along.X) * (OutOfTheDoor / Math.Max(1e-9, door.Length));
        return Rings.Contains(walkIn.Outline, door.Middle + across) ? door.Middle - across : door.Middle + across;
    }
}
