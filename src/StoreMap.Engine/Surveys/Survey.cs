using System.Text.Json.Nodes;

namespace StoreMap.Surveys;

/// <summary>Kinds of instrument; the last two give hits only.</summary>
public enum InstrumentKind
{
    /// <summary>Logs ppm against time.</summary>
    LoggingPpm,

    /// <summary>Shows ppm; read by eye.</summary>
    DisplayPpm,

    /// <summary>Shows a level of bars.</summary>
    Level,

    /// <summary>Sounds at a hit.</summary>
    Hit,
}

/// <summary>A monitor and its sampling line.</summary>
public sealed record Instrument
{
    /// <summary>Id unique in the survey.</summary>
    public required string Id { get; init; }

    /// <summary>Kind of instrument.</summary>
    public InstrumentKind Kind { get; init; } = InstrumentKind.DisplayPpm;

    /// <summary>Seconds from the tip to the sensor. The default of 5 s is common practice.</summary>
    public double DelaySeconds { get; init; } = 5;

    /// <summary>Seconds from 0 to 90 % of a step, the delay not included.</summary>
    public double T90Seconds { get; init; } = 5;

    /// <summary>Smallest step shown, ppm.</summary>
    public double ResolutionPpm { get; init; } = 1;

    /// <summary>Detection limit, ppm.</summary>
    public double DetectionPpm { get; init; } = 1;

    /// <summary>Top of the range, ppm.</summary>
    public double RangePpm { get; init; } = 1000;

    /// <summary>Day of the last calibration; null when unknown, which the sheets say.</summary>
    public DateOnly? Calibrated { get; init; }

    /// <summary>Its response to gases it was not set to; empty means that such readings tell hit from no hit only.</summary>
    public IReadOnlyList<GasResponse> Responses { get; init; } = [];

    /// <summary>Fields of the file that this version does not know, kept for writing back; null when there are none. Not to be changed.</summary>
    public JsonObject? Other { get; init; }
}

/// <summary>What was covered of one system, for the honest statement on the report.</summary>
/// <param name="System">System id.</param>
/// <param name="Complete">True only when a certified person ticked it.</param>
/// <param name="NotChecked">What was not checked, in words.</param>
public sealed record SystemCoverage(string System, bool Complete, IReadOnlyList<string> NotChecked)
{
    /// <summary>Fields of the file that this version does not know, kept for writing back; null when there are none. Not to be changed.</summary>
    public JsonObject? Other { get; init; }
}

/// <summary>A leak or suspicion as it was noted during the visit. What became of it is told by the service record.</summary>
public sealed record SurveyFinding
{
    /// <summary>Id unique in the store; the service record uses the same.</summary>
    public required string Id { get; init; }

    /// <summary>Fixture id; null for equipment.</summary>
    public string? Fixture { get; init; }

    /// <summary>Equipment id; null for a fixture.</summary>
    public string? Equipment { get; init; }

    /// <summary>Metres along the fixture's front; null when not said.</summary>
    public double? Along { get; init; }

    /// <summary>Where, and what was seen, in words.</summary>
    public string? Note { get; init; }

    /// <summary>Fields of the file that this version does not know, kept for writing back; null when there are none. Not to be changed.</summary>
    public JsonObject? Other { get; init; }
}

/// <summary>A moment at which a monitor's zero was set anew, by hand or by itself: backgrounds before and after are unrelated.</summary>
/// <param name="Time">When.</param>
/// <param name="Instrument">Its id; null for the survey's first.</param>
public sealed record ZeroEvent(DateTimeOffset Time, string? Instrument);

/// <summary>One visit: its readings, instruments and states.</summary>
public sealed record Survey
{
    /// <summary>Id of the store's layout.</summary>
    public required string Store { get; init; }

    /// <summary>Layout revision surveyed; null when a bare CSV was read.</summary>
    public int? LayoutRevision { get; init; }

    /// <summary>Start of the visit with offset; its date is the visit's date.</summary>
    public required DateTimeOffset Start { get; init; }

    /// <summary>Who surveyed.</summary>
    public IReadOnlyList<string> Technicians { get; init; } = [];

    /// <summary>Instruments used; at least one.</summary>
    public required IReadOnlyList<Instrument> Instruments { get; init; }

    /// <summary>Readings in time order.</summary>
    public required IReadOnlyList<Reading> Readings { get; init; }

    /// <summary>What was covered, per system.</summary>
    public IReadOnlyList<SystemCoverage> Coverage { get; init; } = [];

    /// <summary>Findings noted during the visit.</summary>
    public IReadOnlyList<SurveyFinding> Findings { get; init; } = [];

    /// <summary>When monitors were zeroed during the visit, in time order.</summary>
    public IReadOnlyList<ZeroEvent> Zeroed { get; init; } = [];

    /// <summary>The protocol's values as the file gives them; null when it gives none. Not to be changed.</summary>
    public JsonObject? Protocol { get; init; }

    /// <summary>Fields of the file that this version does not know, kept for writing back; null when there are none. Not to be changed.</summary>
    public JsonObject? Other { get; init; }

    /// <summary>The instrument of a reading.</summary>
    public Instrument InstrumentOf(Reading reading) =>
        Instruments.FirstOrDefault(i => i.Id == reading.Instrument) ?? Instruments[0];
}
