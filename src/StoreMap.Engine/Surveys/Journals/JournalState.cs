using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Something of the store's that is off, open or muted until it is put back.</summary>
/// <param name="Id">Id of the event that opened it.</param>
/// <param name="What">One of <see cref="Kinds"/>.</param>
/// <param name="Fixture">The fixture; null for the whole store.</param>
/// <param name="Since">Since when.</param>
/// <param name="Ended">When it was put back or taken over; null while open.</param>
/// <param name="HandedTo">Who took it over; null when put back or open.</param>
public sealed record LeftOffItem(string Id, string What, string? Fixture, DateTimeOffset Since, DateTimeOffset? Ended, string? HandedTo)
{
    /// <summary>True when one entry says that it was put back and another that somebody took it over.</summary>
    public bool IsEndedTwice { get; init; }

    /// <summary>What can be off, open or muted.</summary>
    public static IReadOnlyList<string> Kinds { get; } = ["fans-off", "defrost", "valve-shut", "panel-off", "alarm-muted"];
}

/// <summary>A probe point passed over.</summary>
/// <param name="Point">Its id.</param>
/// <param name="Reason">Why: one of <see cref="UsualReasons"/>, or as someone typed it.</param>
public sealed record SkippedPoint(string Point, string Reason)
{
    /// <summary>The reasons to choose from.</summary>
    public static IReadOnlyList<string> UsualReasons { get; } = ["not reachable", "customer in the way", "wet or iced", "case emptied or off", "not safe", "not here any more"];
}

/// <summary>A place around which closer points are probed.</summary>
/// <param name="Fixture">Fixture id.</param>
/// <param name="At">Distance along its front, layout units; 0 in a walk-in.</param>
/// <param name="Spot">The spot of the one point asked for there; null for closer points to both sides.</param>
public sealed record CloseInPlace(string Fixture, double At, Spot? Spot = null);

/// <summary>Where a stop-work reading was taken, as its device wrote it.</summary>
/// <param name="Point">Id of the probe point; null where none was named.</param>
/// <param name="Fixture">Fixture id; null where none was named.</param>
/// <param name="At">Distance along its front, layout units; null where none was told.</param>
public sealed record StoppedPlace(string? Point, string? Fixture, double? At);

/// <summary>A reading at which work stops.</summary>
/// <param name="Time">When.</param>
/// <param name="Gas">Refrigerant.</param>
/// <param name="Ppm">The number.</param>
/// <param name="Level">The set point reached.</param>
public sealed record StoppedWork(DateTimeOffset Time, string Gas, double Ppm, StopLevel Level)
{
    /// <summary>True when the monitor showed no more than that it was over its range, <see cref="Ppm"/>.</summary>
    public bool IsOverRange { get; init; }

    /// <summary>Where it was read; null where its device noted no reading before.</summary>
    public StoppedPlace? Place { get; init; }

    /// <summary>When its device noted that everyone is out and the place is aired; null when it did not.</summary>
    public DateTimeOffset? Aired { get; init; }

    /// <summary>True where its device noted readings after it.</summary>
    public bool WentOn { get; init; }
}

/// <summary>What went on in a room, that the monitor may have reacted to.</summary>
/// <param name="Room">Room or walk-in id; null for the sales floor.</param>
/// <param name="What">One of <see cref="Kinds"/>, or as a later version notes it.</param>
/// <param name="Since">When it was noted.</param>
/// <param name="Until">When its end was noted; null when it was not.</param>
public sealed record RoomActivity(string? Room, string What, DateTimeOffset Since, DateTimeOffset? Until)
{
    /// <summary>What can be ticked.</summary>
    public static IReadOnlyList<string> Kinds { get; } = ["cleaning", "baking", "dry ice", "forklift", "air handling", "dock door open"];
}

/// <summary>Somebody in a walk-in.</summary>
/// <param name="Fixture">The walk-in's id.</param>
/// <param name="Device">The device of who went in.</param>
/// <param name="Since">Since when.</param>
public sealed record InsideWalkIn(string Fixture, string Device, DateTimeOffset Since);

/// <summary>A panel that was lifted and what was found behind it.</summary>
/// <param name="Event">Id of the event that says so, by which it can be withdrawn.</param>
/// <param name="Panel">Panel id, such as <c>C3/6</c>.</param>
/// <param name="Leak">True when a leak was confirmed behind it.</param>
/// <param name="Component">What leaks, in words; null when not said or none.</param>
/// <param name="Time">When it was noted.</param>
/// <param name="Day">The day on which it was lifted; null for the day of <paramref name="Time"/>.</param>
public sealed record PanelLook(string Event, string Panel, bool Leak, string? Component, DateTimeOffset Time, DateOnly? Day = null)
{
    /// <summary>The day on which it was lifted.</summary>
    public DateOnly LiftedOn => Day ?? DateOnly.FromDateTime(Time.DateTime);
}

/// <summary>What someone typed beside the readings: a note of its own, or one with a photo.</summary>
/// <param name="Time">When.</param>
/// <param name="Text">As typed.</param>
/// <param name="WithPhoto">True for a note with a photo.</param>
public sealed record JournalNote(DateTimeOffset Time, string Text, bool WithPhoto)
{
    /// <summary>Id of the probe point; null where none was named.</summary>
    public string? Point { get; init; }

    /// <summary>Fixture id; null where none was named.</summary>
    public string? Fixture { get; init; }

    /// <summary>Panel id; null where none was named.</summary>
    public string? Panel { get; init; }
}

/// <summary>What a survey's events come to. The same events in any order, with repeats, come to the same.</summary>
public sealed record JournalState
{
    private readonly Lazy<JsonObject> file;
    private readonly Lazy<string> text;

    internal JournalState(Func<JsonObject> file)
    {
        this.file = new Lazy<JsonObject>(file);
        text = new Lazy<string>(() => File.ToJsonString());
    }

    /// <summary>Events that count, in time order; those withdrawn left out.</summary>
    public required IReadOnlyList<JournalEvent> Events { get; init; }

    /// <summary>The survey as a file's JSON, read with <see cref="SurveyDocument"/>; put together when it is first asked for.</summary>
    public JsonObject File => file.Value;

    /// <summary>The same as text.</summary>
    public string FileText => text.Value;

    /// <summary>Points passed over and not read later.</summary>
    public required IReadOnlyList<SkippedPoint> Skipped { get; init; }

    /// <summary>Ids of the points read.</summary>
    public required IReadOnlyList<string> Read { get; init; }

    /// <summary>Close-in passes asked for.</summary>
    public required IReadOnlyList<CloseInPlace> CloseIns { get; init; }

    /// <summary>All left-off items, the oldest first.</summary>
    public required IReadOnlyList<LeftOffItem> LeftOff { get; init; }

    /// <summary>Panels lifted, in time order; of a panel looked at again the last look.</summary>
    public required IReadOnlyList<PanelLook> Panels { get; init; }

    /// <summary>Stop-work readings.</summary>
    public required IReadOnlyList<StoppedWork> Stops { get; init; }

    /// <summary>Notes without a reading, in time order.</summary>
    public required IReadOnlyList<JournalNote> Notes { get; init; }

    /// <summary>True when the visit was ended and nothing is left off.</summary>
    public required bool Closed { get; init; }

    /// <summary>What two people must settle, in words: one id with two contents, a visit ended while something was off.</summary>
    public required IReadOnlyList<string> Conflicts { get; init; }

    /// <summary>Items still open.</summary>
    public IEnumerable<LeftOffItem> Open => LeftOff.Where(i => i.Ended is null);

    /// <summary>Who is in a walk-in, in the order in which they went in. Each has a clock of their own: one who comes out ends only that one.</summary>
    public IReadOnlyList<InsideWalkIn> Inside
    {
        get
        {
            var inside = new List<InsideWalkIn>();
            foreach (var e in Events.Where(e => e.Kind == JournalKinds.CheckIn))
            {
                var (fixture, into) = (e.Body["fixture"].Text() ?? "", e.Body["in"]?.GetValueKind() == JsonValueKind.True);
                var who = e.Body["who"].Text() ?? e.Device;
                // Somebody who was not in there can only mean those who were.
                var all = !into && e.Body["who"] is null && !inside.Exists(i => i.Fixture == fixture && i.Device == who);
                inside.RemoveAll(i => i.Fixture == fixture && (all || i.Device == who));
                if (into) inside.Add(new InsideWalkIn(fixture, who, e.Time));
            }

            return inside;
        }
    }

    /// <summary>Walk-ins that the technician of a device is in.</summary>
    /// <param name="device">The device's id.</param>
    public IEnumerable<string> InsideBy(string device) => Inside.Where(i => i.Device == device).Select(i => i.Fixture);

    /// <summary>What went on in rooms, in the order in which it began.</summary>
    public IReadOnlyList<RoomActivity> Activities
    {
        get
        {
            var all = new List<RoomActivity>();
            foreach (var e in Events.Where(e => e.Kind == JournalKinds.Activity))
            {
                var (room, what, on) = (e.Body["room"].Text(), e.Body["what"].Text() ?? "", e.Body["on"]?.GetValueKind() == JsonValueKind.True);
                var open = all.FindIndex(a => a.Room == room && a.What == what && a.Until is null);
                if (on && open < 0) all.Add(new RoomActivity(room, what, e.Time, null));
                else if (!on && open >= 0) all[open] = all[open] with { Until = e.Time };
            }

            return all;
        }
    }

    /// <summary>True while something goes on in a room; null for the sales floor.</summary>
    public bool GoesOn(string? room, string what) => Activities.Any(a => a.Room == room && a.What == what && a.Until is null);
}
