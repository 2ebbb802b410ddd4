namespace StoreMap.Surveys;

/// <summary>One number of a continuous log.</summary>
/// <param name="Time">When it was shown.</param>
/// <param name="Ppm">The number as logged, ppm; the limit when it was written as one.</param>
/// <param name="Bound">Exact unless written as a limit or at the top of the range.</param>
public readonly record struct LogSample(DateTimeOffset Time, double Ppm, ReadingBound Bound);

/// <summary>A continuous log of one monitor, in time order.</summary>
/// <param name="Samples">At least one.</param>
/// <param name="Instrument">The monitor.</param>
/// <param name="Gas">The refrigerant it was set to; null when the log does not say.</param>
/// <param name="Warnings">What was odd.</param>
public sealed record ContinuousLog(
    IReadOnlyList<LogSample> Samples, Instrument Instrument, string? Gas, IReadOnlyList<Problem> Warnings);

/// <summary>What a mark says about the walk.</summary>
public enum MarkEvent
{
    /// <summary>No word: the probe is held here; during a walk, it passes here.</summary>
    At,

    /// <summary>A walk at steady pace begins.</summary>
    Start,

    /// <summary>The walk ends.</summary>
    End,

    /// <summary>The walker stands still.</summary>
    Pause,

    /// <summary>The walker goes on.</summary>
    Resume,

    /// <summary>The monitor's zero is set anew, by hand or by itself.</summary>
    Zero,
}

/// <summary>Where the probe was at a moment.</summary>
/// <param name="Element">Its row for messages.</param>
/// <param name="Event">What it says.</param>
/// <param name="Reading">Time, place, spot and air state from here on; its number is unused. The place of a pause, resume or
/// zero may be unknown.</param>
/// <param name="HasPlace">False when the mark gave no place.</param>
public sealed record LogMark(string Element, MarkEvent Event, Reading Reading, bool HasPlace)
{
    /// <summary>When.</summary>
    public DateTimeOffset Time => Reading.Time;
}
