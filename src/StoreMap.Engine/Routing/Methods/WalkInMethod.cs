using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Walk-ins, entered once: low and high inside, and at each coil.</summary>
internal static class WalkInMethod
{
    /// <summary>Where a coil is looked for when the layout gives none: this far off the wall facing the door, metres.</summary>
    private const double CoilOffWall = 0.6;

    public static List<ProbePoint> Points(DraftBuilder draft, Fixture fixture)
    {
        if (!draft.HoldsRefrigerant(fixture, 0))
        {
            SecondaryLoop.NoteMissing(draft, fixture, 1, 0);
            return [];
        }

        var door = fixture.Opening?.Middle ?? fixture.Outline[0];
        var points = new List<ProbePoint>();
        var places = Inside(fixture, door, draft.Protocol.WalkInStepMetres);
        for (var i = 0; i < places.Count; i++)
        {
            points.Add(Make(draft, fixture, "L", i + 1, ProbePass.LowHigh, places[i], places[i]) with
            {
                Height = ProbeHeight.Low,
                Note = i == 0 ? "Test the inside release before the door shuts and tell staff. Equal readings low and high mean mixed air: stop the fans before pinpointing." : null,
            });
            points.Add(Make(draft, fixture, "H", i + 1, ProbePass.LowHigh, places[i], places[i]) with { Height = ProbeHeight.High });
        }

        var guessed = fixture.Coils.Count == 0;
        var coils = guessed ? [FacingTheDoor(fixture, door)] : fixture.Coils;
        if (guessed) draft.Note(fixture.Id, "The layout gives no coil: one is looked for near the ceiling on the wall facing the door.");
        var middle = RingMiddle.Of(fixture.Outline);
        for (var i = 0; i < coils.Count; i++)
        {
            var towards = middle - coils[i];
            var distance = middle.DistanceTo(coils[i]);
            var off = distance == 0 ? 0 : Math.Min(1, draft.Protocol.StandOffMetres / distance);
            points.Add(Make(draft, fixture, "C", i + 1, ProbePass.Coil, coils[i], coils[i] + (towards * off)) with
            {
                Spot = Spot.CoilEnd,
                Height = ProbeHeight.High,
                DwellSeconds = draft.Protocol.AtLeastDelay(draft.Protocol.CoilDwellSeconds),
                Note = guessed ? "No coil in the layout: look near the ceiling on the wall facing the door." : "At the coil's ends and below its pan; keep the tip off guards and water.",
            });
        }

        return points;
    }

    private static ProbePoint Make(DraftBuilder draft, Fixture fixture, string letter, int number, ProbePass pass, PlanPoint at, PlanPoint stand)
    {
        var id = draft.IdOf(fixture.Id, string.Create(CultureInfo.InvariantCulture, $"{letter}{number:00}"));
        return draft.At(id, pass, at, new(0, 0), draft.Protocol.DwellSeconds) with { Fixture = fixture.Id, Stand = stand, Room = fixture.Id };
    }

    /// <summary>Middles of equal cells no wider than the step, to and fro from the door; the middle of the room when it is small.</summary>
    private static List<PlanPoint> Inside(Fixture fixture, PlanPoint door, double step)
    {
        var (left, right) = (fixture.Outline.Min(p => p.X), fixture.Outline.Max(p => p.X));
        var (bottom, top) = (fixture.Outline.Min(p => p.Y), fixture.Outline.Max(p => p.Y));
        var xs = Steps.Middles(right - left, step).Select(x => left + x).ToList();
        var ys = Steps.Middles(top - bottom, step).Select(y => bottom + y).ToList();
        if (door.X > (left + right) / 2) xs.Reverse();
        if (door.Y > (bottom + top) / 2) ys.Reverse();
        var places = new List<PlanPoint>();
        for (var i = 0; i < ys.Count; i++)
        {
            var row = xs.Select(x => new PlanPoint(x, ys[i]));
            places.AddRange(i % 2 == 0 ? row : row.Reverse());
        }

        places.RemoveAll(p => !Rings.Contains(fixture.Outline, p));
        return places.Count > 0 ? places : [RingMiddle.Of(fixture.Outline)];
    }

    private static PlanPoint FacingTheDoor(Fixture fixture, PlanPoint door)
    {
        var middle = RingMiddle.Of(fixture.Outline);
        var across = middle + (middle - door);
        var length = across.DistanceTo(door);
        var place = length == 0 ? middle : door + ((across - door) * (Math.Max(0, length - CoilOffWall) / length));
        return Rings.Contains(fixture.Outline, place) ? place : middle;
    }
}
