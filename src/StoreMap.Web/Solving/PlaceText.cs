using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Web.Solving;

/// <summary>What is known of a place on the map, in one order: what was located there, the gas there, and the readings about it in the same air.</summary>
internal static class PlaceText
{
    private const double NearReadingMetres = 2;
    private const int MostReadings = 3;
    private const double HereMetres = 0.2;

    // A zone ends where its case does; a press beside its end means it.
    private const double ZoneSlackMetres = 0.3;

    /// <summary>The place in words.</summary>
    /// <param name="plan">The plan, in the unit in which lengths are shown.</param>
    /// <param name="net">The visit.</param>
    /// <param name="field">Its heat map.</param>
    /// <param name="result">What was located at it; null before that is worked out.</param>
    /// <param name="at">The place.</param>
    public static PlaceAnswer Of(Plan plan, NetSurvey net, FieldSampler field, LocateResult? result, PlanPoint at)
    {
        var inside = PlanPlaces.FixtureAt(plan, at);
        var front = PlanPlaces.NearestFront(plan, at);
        var room = PlanPlaces.RoomAt(plan, at);
        var value = field.At(at, inside is { Kind: not FixtureKind.WalkIn } ? inside.Id : null);
        if (!PlanPlaces.IsInStore(plan, at)) return new PlaceAnswer("Outside the store", ["Nothing is known of the air here."], at.X, at.Y);
        if (double.IsNaN(value.MeanPpm)) return new PlaceAnswer("A wall, or what stands on the floor", ["There is no air here to measure."], at.X, at.Y);
        var title = inside is { Kind: not FixtureKind.WalkIn } ? Say.Fixture(inside)
            : front is { } f ? $"{Say.Fixture(f.Fixture)}, {Say.Length(plan.Units, f.OnBack ? f.Along : f.Fixture.FromLeft(f.Along))} from the left"
            : PlanPlaces.RoomName(plan, room);
        var near = net.Readings.Where(r => IsOfAir(plan, r.Reading.Place, inside?.Id ?? front?.Fixture.Id, room) && r.Reading.Place.At.DistanceTo(at) <= NearReadingMetres)
            .OrderBy(r => r.Reading.Place.At.DistanceTo(at)).Take(MostReadings).ToList();
        List<string> lines = [];
        if (result is not null && Located(plan, result, inside ?? front?.Fixture, at, inside is { Kind: not FixtureKind.WalkIn } || front is not null) is { } located) lines.Add(located);
        lines.Add(Gas(value, inside));
        lines.AddRange(near.Select(r => Read(plan, r, at)));
        if (value.Evidence && near.Count == 0) lines.Add($"No reading of this air within {Say.Length(plan.Units, NearReadingMetres)}: the map goes by those farther off.");
        var higher = value.Evidence ? near.Where(r => r.NetPpm > value.HighPpm && r.Reading.Bound != ReadingBound.Below).ToList() : [];
        if (higher.Exists(r => r.Reading.Air == AirState.FansOn)) lines.Add("Higher readings near by do not hold here: gas thins out within a step or two of where it comes out.");
        if (higher.Exists(r => r.Reading.Air != AirState.FansOn)) lines.Add("With its fans off gas gathers at a case: those readings are higher than the air with fans on.");
        return new PlaceAnswer(title, lines, at.X, at.Y);
    }

    // What lies behind a wall, or in another case's air, says nothing of this place.
    private static bool IsOfAir(Plan plan, ReadingPlace place, string? fixture, string? room) =>
        (place.Fixture is not null && place.Fixture == fixture) || PlanPlaces.RoomAt(plan, place.At) == room;

    private static string Gas(FieldValue value, Fixture? inside)
    {
        if (!value.Evidence) return "Not probed near enough to say how much gas there is at this place.";
        var where = inside is null ? "In the air here" : inside.Kind == FixtureKind.WalkIn ? "In the air of this walk-in here" : "In the air of this case";
        return $"{where}: about {Say.Ppm(value.MedianPpm)} ppm above room, 9 in 10 that it is between {Say.Ppm(Math.Max(0, value.LowPpm))} and {Say.Ppm(Math.Max(0, value.HighPpm))}; {Say.Chance(value.Exceedance)} that it is at or above the action level.";
    }

    private static string Read(Plan plan, NetReading r, PlanPoint at) =>
        $"Read {DeskText.Shown(r.Reading)} ppm at {Say.Place(plan, r.Reading.Place)}, {Away(plan, r.Reading.Place.At.DistanceTo(at))}, {r.Reading.Air.Kebab().Replace('-', ' ')}: {Say.Net(r)} above room.";

    private static string Away(Plan plan, double metres) => metres < HereMetres ? "right here" : $"{Say.Length(plan.Units, metres)} from here";

    // A case's verdict covers all that is read at it, so that no leak seen beside a high reading has its reason.
    private static string? Located(Plan plan, LocateResult result, Fixture? fixture, PlanPoint at, bool alongFront)
    {
        if (fixture is null) return null;
        var zones = result.Zones.Index().Where(z => z.Item.Fixture == fixture.Id).ToList();
        foreach (var (i, zone) in zones)
        {
            var name = $"leak zone {LeakLetters.Of(i)}: {Say.Chance(zone.Probability)} that it leaks";
            if (zone is { From: { } from, To: { } to } && fixture.Front is { } front && alongFront)
            {
                var along = front.Project(at).Along;
                if (along >= from - ZoneSlackMetres && along <= to + ZoneSlackMetres) return Say.Sentence($"in {name} between {Stretch(plan, fixture, from, to)}");
            }
            else if (zone.Radius is { } radius && zone.At.DistanceTo(at) <= radius + ZoneSlackMetres)
            {
                return Say.Sentence($"in {name} within {Say.Length(plan.Units, radius)} of the mark");
            }
        }

        if (zones.Count > 0) return $"This place is outside the leak {(zones.Count == 1 ? "zone" : "zones")} of {fixture.Tag}: {string.Join(", ", zones.Select(z => LeakLetters.Of(z.Index) + (z.Item is { From: { } a, To: { } b } ? " at " + Stretch(plan, fixture, a, b) : "")))}.";
        if (result.NoLeakSeen.FirstOrDefault(n => n.Fixture == fixture.Id) is { } none)
            return none.ExplainedBy is { } cause ? $"No leak seen at {fixture.Tag}: its gas is that of {cause}." : $"No leak seen at {fixture.Tag}: one would show from {Say.Ppm(none.SmallestSeenPpm)} ppm up.";
        return result.NotProbed.Contains(fixture.Id) ? $"{fixture.Tag} was not probed." : null;
    }

    private static string Stretch(Plan plan, Fixture fixture, double from, double to)
    {
        double a = fixture.FromLeft(from), b = fixture.FromLeft(to);
        return $"{Say.Length(plan.Units, Math.Min(a, b))} and {Say.Length(plan.Units, Math.Max(a, b))} from the left";
    }
}
