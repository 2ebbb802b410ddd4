namespace StoreMap.Surveys;

/// <summary>A reading less what the room's air shows without the fixture.</summary>
public sealed record NetReading
{
    /// <summary>The reading as taken.</summary>
    public required Reading Reading { get; init; }

    /// <summary>Background of its room at its time, ppm.</summary>
    public required double BackgroundPpm { get; init; }

    /// <summary>Net ppm: shown less background; may be slightly negative. The limit less the background when
    /// <see cref="Bound"/> is not exact.</summary>
    public required double NetPpm { get; init; }

    /// <summary>Standard deviation of the net value, ppm: instrument and background together.</summary>
    public required double DeviationPpm { get; init; }

    /// <summary>How <see cref="NetPpm"/> bounds the truth.</summary>
    public ReadingBound Bound { get; init; }

    /// <summary>The detection level here, net ppm: never below the instrument's limit.</summary>
    public required double DetectionPpm { get; init; }

    /// <summary>The action level here, net ppm.</summary>
    public required double ActionPpm { get; init; }

    /// <summary>True when the monitor had not come back to clean air after an over-range reading: the number holds what was left in the
    /// hose, so it bounds the truth from above (<see cref="Bound"/> is then <see cref="ReadingBound.Below"/>) and is never a hit.</summary>
    public bool CarryOver { get; init; }

    /// <summary>Seconds from the last over-range reading to a reading of carry-over; null for others, or when it is not known.</summary>
    public double? SecondsSinceOverRange { get; init; }

    /// <summary>True when the number only tells hit from no hit: a monitor that shows bars or beeps, or one set to another refrigerant
    /// without an entry in the response table. Such readings are tracked and reported, never mapped or used for strength.</summary>
    public bool HitOnly { get; init; }

    /// <summary>Why the reading counts for less, in a sentence; null when it counts in full.</summary>
    public string? Reason { get; init; }

    /// <summary>True when the net reading is at or above the action level.</summary>
    public bool IsHit => Bound != ReadingBound.Below && NetPpm >= ActionPpm;
}

/// <summary>The level of one room's air.</summary>
/// <param name="Room">Room or walk-in id; null for the sales floor.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Ppm">Background, ppm (median over the visit).</param>
/// <param name="DeviationPpm">Scatter of the quiet readings, ppm.</param>
/// <param name="Count">Readings it rests on.</param>
/// <param name="Raised">True when the room reads the same raised level everywhere: background or interference, not a leak.</param>
/// <param name="Reason">Why it is called so, in a sentence; null when not raised.</param>
public sealed record RoomBackground(
    string? Room, string Name, double Ppm, double DeviationPpm, int Count, bool Raised, string? Reason);

/// <summary>A survey with its backgrounds taken off.</summary>
/// <param name="Survey">The survey.</param>
/// <param name="Readings">One net reading per reading, in the same order.</param>
/// <param name="Rooms">One background per room that has readings.</param>
/// <param name="Warnings">What was odd, with defaults taken.</param>
public sealed record NetSurvey(
    Survey Survey, IReadOnlyList<NetReading> Readings, IReadOnlyList<RoomBackground> Rooms, IReadOnlyList<Problem> Warnings);
