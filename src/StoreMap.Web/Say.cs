using System.Globalization;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Web;

/// <summary>Places, lengths and chances in the words of the trade.</summary>
internal static class Say
{
    /// <summary>A distance, no finer than a probe is held; see <see cref="LengthWords"/>.</summary>
    public static string Length(LengthUnit units, double metres) => LengthWords.Of(units, metres);

    /// <summary>What was entered in a field that may stay empty.</summary>
    public static string? Entered(string text) => text.Trim() is { Length: > 0 } entered ? entered : null;

    public static string Ppm(double ppm) => ppm.ToString(ppm < 10 ? "0.#" : "0", CultureInfo.InvariantCulture);

    /// <summary>What a reading is above the room; over range it is at least that.</summary>
    public static string Net(NetReading reading) => (reading.Bound == ReadingBound.AtLeast ? "over " : "") + Ppm(Math.Max(0, reading.NetPpm));

    /// <summary>What a reading that was entered later than it was taken asks for, as a sentence; null when it asks for nothing.</summary>
    /// <param name="limits">The readings at which work stops there.</param>
    /// <param name="ppm">The number; over range the least that it can be.</param>
    /// <param name="isOverRange">True when the gas was over what the monitor shows.</param>
    public static string? AfterStop(StopWork limits, double ppm, bool isOverRange) => limits.Judge(ppm, isOverRange) == StopLevel.None ? null
        : $"{(ppm >= limits.LeavePpm ? "That is at a stop-work level" : $"That is over what the monitor shows and may be above the limit of {Ppm(limits.LeavePpm)} ppm")}: nobody goes back in before the room is aired and measured from outside";

    /// <summary>Which limit stopped work, as the beginning of a sentence that goes on with what the limit is.</summary>
    public static string WhyStopped(StoppedWork stop, StopWork limits)
    {
        var limit = stop.Level == StopLevel.Out ? limits.OutPpm : limits.LeavePpm;
        return stop.Ppm >= limit ? $"At or above {Ppm(limit)} ppm" : $"Over what the monitor shows, {Ppm(stop.Ppm)} ppm: it may be above the limit of {Ppm(limit)} ppm";
    }

    /// <summary>A chance, such as <c>about 8 in 10</c>; never a certainty.</summary>
    public static string Chance(double probability) => probability switch
    {
        < 0.05 => "under 1 in 20",
        >= 0.95 => "more than 9 in 10",
        _ => string.Create(CultureInfo.InvariantCulture, $"about {Math.Max(1, Math.Round(probability * 10)):0} in 10"),
    };

    /// <summary>A number of fixtures.</summary>
    public static string Fixtures(int count) => count == 1 ? "1 fixture" : string.Create(CultureInfo.InvariantCulture, $"{count} fixtures");

    /// <summary>Words of the engine as a sentence of their own.</summary>
    public static string Sentence(string words) => words.Length == 0 ? words : $"{char.ToUpperInvariant(words[0])}{words[1..].TrimEnd('.')}.";

    public static string Fixture(Fixture fixture) => fixture.Name is null ? fixture.Tag : $"{fixture.Tag} {fixture.Name}";

    /// <summary>Where a reading was taken.</summary>
    public static string Place(Plan plan, ReadingPlace place) => plan.FindFixture(place.Fixture) is { } fixture
        ? place.Along is { } along ? $"{fixture.Tag}, {Length(plan.Units, fixture.FromLeft(along))} from the left" : fixture.Tag
        : PlanPlaces.RoomName(plan, place.Room);

    /// <summary>Where a reading was taken, with the spot where that is not the front.</summary>
    public static string Place(Plan plan, Reading reading) => Place(plan, reading.Place) + (reading.Spot is { } spot and not Spot.Front ? $", {spot.Kebab().Replace('-', ' ')}" : "");

    /// <summary>A probe point, as on the line that tells what was kept.</summary>
    public static string Place(Plan plan, ProbePoint point) => Title(plan, point) + (point.Fixture is null ? "" : $", {Where(plan, point)}");

    /// <summary>Where a probe point lies, beyond its fixture's name.</summary>
    public static string Where(Plan plan, ProbePoint point)
    {
        var spot = point.Spot == Spot.Front ? "front" : point.Spot.Kebab().Replace('-', ' ');
        if (plan.FindFixture(point.Fixture) is not { } fixture) return point.Note ?? PlanPlaces.RoomName(plan, point.Room);
        var height = point.Height == ProbeHeight.Mid ? "" : $", {point.Height.Kebab()}";
        return point.Along is { } along ? $"{Length(plan.Units, fixture.FromLeft(along))} from the left · {spot}{height}{(point.OnBack ? ", far side" : "")}" : $"{spot}{height}";
    }

    public static string Title(Plan plan, ProbePoint point) => point.Pass switch
    {
        ProbePass.Zero => "Zero",
        ProbePass.Background => PlanPlaces.RoomName(plan, point.Room) + " air",
        ProbePass.Checklist => point.Equipment ?? "Equipment",
        _ => plan.FindFixture(point.Fixture)?.Tag ?? point.Id,
    };

    public static string LeftOff(string what) => what switch
    {
        "fans-off" => "Fans off",
        "defrost" => "In defrost",
        "valve-shut" => "Valve shut",
        "panel-off" => "Panel off",
        "alarm-muted" => "Alarm muted",
        _ => what,
    };

    /// <summary>How many entries wait for a network.</summary>
    public static string Waiting(int count) => count == 0 ? "Nothing waits" : count == 1 ? "1 entry waits" : string.Create(CultureInfo.InvariantCulture, $"{count} entries wait");

    /// <summary>How often, in words.</summary>
    public static string Times(int count) => count == 1 ? "once" : string.Create(CultureInfo.InvariantCulture, $"{count} times");

    public static string Clock(TimeSpan time) => time.TotalHours >= 1
        ? string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalHours}:{time.Minutes:00}:{time.Seconds:00}")
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Max(0, time.Minutes)}:{Math.Max(0, time.Seconds):00}");

    /// <summary>A time as the store's clocks show it; this device's where the store's time zone is not known.</summary>
    public static string Date(DateTimeOffset time, Plan plan) => Clock(time, plan).ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A time as the store's clock shows it; as this device's where the plan has no time zone known here.</summary>
    public static DateTime Clock(DateTimeOffset time, Plan plan) =>
        (TimeZoneInfo.TryFindSystemTimeZoneById(plan.TimeZone, out var zone) ? TimeZoneInfo.ConvertTime(time, zone) : time.ToLocalTime()).DateTime;

    /// <summary>A time as this device's clock shows it.</summary>
    public static string Date(DateTimeOffset time) => time.ToLocalTime().ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}
