using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Readings of a line-up walked at a steady pace between marks, pauses left out.</summary>
internal static class SteadyWalk
{
    /// <summary>Cuts the walk into steps and reads each.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="tip">The log at the tip.</param>
    /// <param name="marks">From the start to the end of one walk.</param>
    /// <param name="settings">Length of a step.</param>
    public static IEnumerable<Reading> Readings(Plan plan, TipLog tip, IReadOnlyList<LogMark> marks, LogSettings settings)
    {
        var places = marks.Where(m => m.HasPlace && m.Event is not (MarkEvent.Pause or MarkEvent.Resume)).ToList();
        for (var leg = 0; leg + 1 < places.Count; leg++)
        {
            var (a, b) = (places[leg], places[leg + 1]);
            var moving = Moving(tip, marks, a, b);
            var total = moving.Sum(m => m.To - m.From);
            var steps = Math.Max(1, (int)Math.Round(a.Reading.Place.At.DistanceTo(b.Reading.Place.At) / settings.WalkStepMetres));
            for (var k = 0; k < steps && total > 0; k++)
            {
                var (from, to) = (Clock(moving, total * k / steps), Clock(moving, total * (k + 1) / steps));
                if (tip.Level(from, to) is not { } level) continue;
                var at = Between(plan, a.Reading.Place, b.Reading.Place, (k + 0.5) / steps);
                yield return tip.Reading(a.Reading with { Time = tip.TimeAt((from + to) / 2), Place = at }, level, null);
            }
        }
    }

    /// <summary>The stretches of a leg in which the walker moves.</summary>
    private static List<(double From, double To)> Moving(TipLog tip, IReadOnlyList<LogMark> marks, LogMark a, LogMark b)
    {
        var stretches = new List<(double, double)>();
        var from = tip.SecondsAt(a.Time);
        foreach (var mark in marks.Where(m => m.Time >= a.Time && m.Time <= b.Time))
        {
            if (mark.Event == MarkEvent.Pause) stretches.Add((from, tip.SecondsAt(mark.Time)));
            if (mark.Event == MarkEvent.Resume) from = tip.SecondsAt(mark.Time);
        }

        stretches.Add((from, tip.SecondsAt(b.Time)));
        return stretches;
    }

    /// <summary>The clock after so many seconds of moving.</summary>
    private static double Clock(List<(double From, double To)> moving, double seconds)
    {
        foreach (var (from, to) in moving)
        {
            if (seconds <= to - from) return from + seconds;
            seconds -= to - from;
        }

        return moving[^1].To;
    }

    private static ReadingPlace Between(Plan plan, ReadingPlace a, ReadingPlace b, double share)
    {
        if (a.Fixture is not null && a.Fixture == b.Fixture && a.OnBack == b.OnBack && a.Along is { } from && b.Along is { } to)
        {
            var along = from + ((to - from) * share);
            return a with { Point = null, Along = along, At = PlanPlaces.PointOn(plan.FindFixture(a.Fixture)!, along, a.OnBack) };
        }

        var at = a.At + ((b.At - a.At) * share);
        var front = PlanPlaces.NearestFront(plan, at);
        return new ReadingPlace
        {
            At = at, Fixture = front?.Fixture.Id, Along = front?.Along, OnBack = front?.OnBack ?? false, Room = PlanPlaces.RoomAt(plan, at),
        };
    }
}
