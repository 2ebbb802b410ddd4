using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>A probe point that was passed over.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Point">The point; null where the plan has none of this id any more.</param>
/// <param name="Reason">Why: one of <see cref="SkippedPoint.UsualReasons"/>, or as someone typed it; may be empty.</param>
public sealed record PassedOver(string Id, ProbePoint? Point, string Reason);

/// <summary>A reading at which work stopped.</summary>
/// <param name="Work">When, at what, and what came of it; times by the store's clocks.</param>
/// <param name="Place">Where it was read; null when that is not known.</param>
public sealed record StopAt(StoppedWork Work, ReadingPlace? Place);

/// <summary>A note without a reading.</summary>
/// <param name="Note">When and what; the time by the store's clocks.</param>
/// <param name="Place">Where; null for the store as a whole.</param>
public sealed record NoteAt(JournalNote Note, ReadingPlace? Place);

/// <summary>What a visit's journals tell beside its readings: what it did not cover of the walk that was planned, and what happened at it.</summary>
public sealed record VisitAccount
{
    /// <summary>In a walk-in a reading without a point's id is of the points this near, metres: half the cell that a point stands for.</summary>
    private const double WalkInReachMetres = 2.5;

    /// <summary>The planned walk, as drafted, and the closer points that were asked for.</summary>
    public required IReadOnlyList<ProbePoint> Points { get; init; }

    /// <summary>Points passed over and not read, in the order in which they were passed over.</summary>
    public required IReadOnlyList<PassedOver> Skipped { get; init; }

    /// <summary>Points at fixtures, of the planned walk, neither read nor passed over; none of a visit that was only read in from a file.</summary>
    public required IReadOnlyList<ProbePoint> Unread { get; init; }

    /// <summary>What was not put back: handed over to a person, or still off. Times by the store's clocks.</summary>
    public required IReadOnlyList<LeftOffItem> LeftOff { get; init; }

    /// <summary>Stop-work readings, in time order.</summary>
    public required IReadOnlyList<StopAt> Stops { get; init; }

    /// <summary>Notes without a reading, in time order.</summary>
    public required IReadOnlyList<NoteAt> Notes { get; init; }

    /// <summary>What went on in rooms that the monitor may have reacted to, in the order in which it began. Times by the store's clocks.</summary>
    public required IReadOnlyList<RoomActivity> Activities { get; init; }

    /// <summary>Takes the account from the journals.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="points">Its planned walk.</param>
    /// <param name="survey">The visit's readings.</param>
    /// <param name="journals">The visit's journals.</param>
    /// <returns>Null without a journal: a survey file alone does not tell which walk was planned.</returns>
    public static VisitAccount? Of(Plan plan, IReadOnlyList<ProbePoint> points, Survey survey, IReadOnlyList<JournalState> journals)
    {
        if (journals.Count == 0) return null;
        var clock = StoreClock.Of(plan.TimeZone, out _);
        List<ProbePoint> all = [.. points.Concat(journals.SelectMany(j => j.CloseIns).SelectMany(c => Closer(plan, c))).DistinctBy(p => p.Id)];
        var byId = all.ToDictionary(p => p.Id);
        var read = survey.Readings.Select(r => r.Place.Point).OfType<string>().ToHashSet();
        var loose = survey.Readings.Where(r => r.Place.Fixture is not null && (r.Place.Point is not { } id || !byId.ContainsKey(id))).ToLookup(r => r.Place.Fixture);
        bool IsRead(ProbePoint p) => read.Contains(p.Id) || loose[p.Fixture].Any(r => IsOf(r, p));
        List<PassedOver> skipped =
        [
            .. journals.SelectMany(j => j.Skipped).DistinctBy(s => s.Point).Select(s => new PassedOver(s.Point, byId.GetValueOrDefault(s.Point), s.Reason))
                .Where(s => s.Id.Length > 0 && (s.Point is null ? !read.Contains(s.Id) : !IsRead(s.Point))),
        ];
        var passed = skipped.Select(s => s.Id).ToHashSet();
        return new VisitAccount
        {
            Points = all, Skipped = skipped,
            Unread = !IsWalked(journals) ? [] : [.. points.Where(p => p.Fixture is not null && !passed.Contains(p.Id) && !IsRead(p))],
            LeftOff =
            [
                .. journals.SelectMany(j => j.LeftOff).Where(i => i.Ended is null || i.HandedTo is not null).OrderBy(i => i.Since)
                    .Select(i => i with { Since = clock.AtStore(i.Since), Ended = i.Ended is { } ended ? clock.AtStore(ended) : null }),
            ],
            Stops =
            [
                .. journals.SelectMany(j => j.Stops).OrderBy(s => s.Time)
                    .Select(s => new StopAt(s with { Time = clock.AtStore(s.Time), Aired = s.Aired is { } aired ? clock.AtStore(aired) : null }, Place(plan, byId, s.Place))),
            ],
            Activities =
            [
                .. journals.SelectMany(j => j.Activities).OrderBy(a => a.Since)
                    .Select(a => a with { Since = clock.AtStore(a.Since), Until = a.Until is { } until ? clock.AtStore(until) : null }),
            ],
            Notes =
            [
                .. journals.SelectMany(j => j.Notes).OrderBy(n => n.Time)
                    .Select(n => new NoteAt(n with { Time = clock.AtStore(n.Time) }, Place(plan, byId, new StoppedPlace(n.Point, n.Fixture, null)))),
            ],
        };
    }

    /// <summary>True where someone read or skipped with the planned walk in hand: a file read into the journal does not tell which walk was planned.</summary>
    private static bool IsWalked(IReadOnlyList<JournalState> journals) =>
        journals.Any(j => j.Events.Any(e => e.Device != JournalEvent.FileDevice && e.Kind is JournalKinds.Reading or JournalKinds.Skip));

    // Ids of closer points tell lengths in the layout's own unit, whichever is shown.
    private static IReadOnlyList<ProbePoint> Closer(Plan plan, CloseInPlace place) => plan.FindFixture(place.Fixture) is not { } fixture ? []
        : ProbePlanner.Closer(plan.ShownIn(null), fixture, place.At * plan.FileUnits.InMetres(), place.Spot, new Protocol());

    /// <summary>True where a reading that names no point of the walk, as one of a monitor's log, was taken at a point.</summary>
    private static bool IsOf(Reading reading, ProbePoint point)
    {
        if (reading.Place is { Along: { } along } && point.Along is { } at)
        {
            var spot = reading.Spot is { } told ? told == point.Spot : point.Spot != Spot.Discharge;
            return spot && reading.Place.OnBack == point.OnBack && Math.Abs(along - at) <= new Protocol().FrontStepMetres / 2;
        }

        return point.Along is null && (reading.Height is null || reading.Height == point.Height) && reading.Place.At.DistanceTo(point.At) <= WalkInReachMetres;
    }

    private static ReadingPlace? Place(Plan plan, Dictionary<string, ProbePoint> points, StoppedPlace? place)
    {
        if (place?.Point is { } id && points.TryGetValue(id, out var point))
        {
            return new ReadingPlace { Point = id, Fixture = point.Fixture, Along = point.Along, OnBack = point.OnBack, At = point.At, Room = point.Room };
        }

        if (plan.FindFixture(place?.Fixture) is not { } fixture) return null;
        double? along = fixture.Front is { } front && place!.At is { } at ? Math.Clamp(at * plan.FileUnits.InMetres(), 0, front.Length) : null;
        return new ReadingPlace { Fixture = fixture.Id, Along = along, At = PlanPlaces.PointOn(fixture, along ?? 0) };
    }
}
