namespace StoreMap.Surveys;

/// <summary>A lag found in the log itself.</summary>
/// <param name="Seconds">Delay between the place and its number, the difference of the two clocks included, seconds.</param>
/// <param name="DeviationSeconds">Its standard deviation, seconds.</param>
/// <param name="Count">Pairs of passes, or marks, it rests on.</param>
/// <param name="How">How it was found, for people.</param>
public sealed record LagEstimate(double Seconds, double DeviationSeconds, int Count, string How)
{
    /// <summary>Largest less smallest lag of the pairs of passes, seconds.</summary>
    public double SpreadSeconds { get; init; }
}

/// <summary>A log put in place.</summary>
public sealed record AlignedLog
{
    internal AlignedLog(ProbePath path) => Path = path;

    /// <summary>The survey: one reading for each stretch walked and each dwell, concentrations recovered from the log.</summary>
    public required Survey Survey { get; init; }

    /// <summary>The log as read.</summary>
    public required ContinuousLog Log { get; init; }

    /// <summary>The delay used, seconds, an estimated difference of clocks included.</summary>
    public required double DelaySeconds { get; init; }

    /// <summary>The lag found in the log; null when it shows none.</summary>
    public LagEstimate? Lag { get; init; }

    /// <summary>Seconds that the marks' clock was found behind the log's; null when it was not asked for or does not show.</summary>
    public double? ClockOffsetSeconds { get; init; }

    /// <summary>Numbers of the log taken outside every walk and dwell.</summary>
    public required int Unplaced { get; init; }

    /// <summary>What was odd, with defaults taken.</summary>
    public required IReadOnlyList<Problem> Warnings { get; init; }

    /// <summary>The walks and dwells, for going back.</summary>
    internal ProbePath Path { get; }
}
