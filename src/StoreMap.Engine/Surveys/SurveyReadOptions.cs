using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>How a readings CSV is to be understood: its column names, and the monitor where the file does not describe it.</summary>
public sealed record SurveyReadOptions
{
    /// <summary>The file's column for one of ours: key <c>time</c>, <c>ppm</c>, …; value the name in the header. Columns not named
    /// here keep our names.</summary>
    public IReadOnlyDictionary<string, string> Columns { get; init; } = new Dictionary<string, string>();

    /// <summary>Detection limit, ppm, greater than 0. <value>The default is 1.</value></summary>
    public double DetectionPpm { get; init; } = SurveyDefaults.DetectionPpm;

    /// <summary>Smallest step shown, ppm, at least 0. <value>The default is 1.</value></summary>
    public double ResolutionPpm { get; init; } = SurveyDefaults.ResolutionPpm;

    /// <summary>Top of the range, ppm; null takes 1000, or the highest number of the file when that is more.</summary>
    public double? RangePpm { get; init; }

    /// <summary>Seconds from tip to sensor. <value>The default is 5.</value></summary>
    public double DelaySeconds { get; init; } = SurveyDefaults.DelaySeconds;

    /// <summary>Seconds from 0 to 90 % of a step. <value>The default is 5.</value></summary>
    public double T90Seconds { get; init; } = SurveyDefaults.T90Seconds;

    /// <summary>What the monitor gives. <value>The default is a display read by eye.</value></summary>
    public InstrumentKind Kind { get; init; } = InstrumentKind.DisplayPpm;

    /// <summary>Response of the monitors to gases they were not set to. <value>The default is none.</value></summary>
    public IReadOnlyList<GasResponse> Responses { get; init; } = [];

    /// <summary>Monitors known beforehand; a reading's <c>instrument</c> is looked up here first, and a reading without one belongs
    /// to the first of them.</summary>
    public IReadOnlyList<Instrument> Instruments { get; init; } = [];

    /// <summary>Reads a column mapping such as <c>time=timestamp,ppm=conc</c>.</summary>
    /// <exception cref="RefusedInputException">A part is not <c>ours=theirs</c>, or names no column of ours; all such parts at once.</exception>
    public static IReadOnlyDictionary<string, string> ParseColumns(string text) => ColumnMapping.Parse(text, ReadingColumns.Names);
}
