using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>How a monitor's number bounds the truth.</summary>
public enum ReadingBound
{
    /// <summary>The number itself.</summary>
    Exact,

    /// <summary>Below the number: under the detection limit, or carry-over that the truth cannot exceed.</summary>
    Below,

    /// <summary>The number or more: over range.</summary>
    AtLeast,
}

/// <summary>Where a reading was taken. At least <see cref="At"/> is known once the survey is read against a plan.</summary>
public sealed record ReadingPlace
{
    /// <summary>The probe point; null when the place was given otherwise.</summary>
    public string? Point { get; init; }

    /// <summary>The fixture it belongs to; null for the air of a room or the sales floor.</summary>
    public string? Fixture { get; init; }

    /// <summary>Metres along the fixture's front from its first point; null without a front.</summary>
    public double? Along { get; init; }

    /// <summary>True on the far long edge of an island.</summary>
    public bool OnBack { get; init; }

    /// <summary>Place on the plan, metres.</summary>
    public required PlanPoint At { get; init; }

    /// <summary>The room it lies in; null on the sales floor. A walk-in's own id inside that walk-in.</summary>
    public string? Room { get; init; }
}

/// <summary>What is known of the air beyond fans on or off; null members are not known.</summary>
/// <param name="Cooling"><c>on</c>, <c>off</c>, <c>off-cycle</c>, <c>electric</c> or <c>hot-gas</c>.</param>
/// <param name="Cover"><c>none</c>, <c>open</c> or <c>closed</c>.</param>
/// <param name="Door"><c>shut</c>, <c>cracked</c> or <c>open</c>.</param>
/// <param name="SinceSeconds">Seconds since the fans stopped.</param>
public sealed record AirDetail(string? Cooling, string? Cover, string? Door, double? SinceSeconds);

/// <summary>What the monitor showed, where and when.</summary>
public sealed record Reading
{
    /// <summary>When the number was read, with the store's offset.</summary>
    public required DateTimeOffset Time { get; init; }

    /// <summary>The number shown, ppm, at least 0; the concentration recovered from a continuous log where
    /// <see cref="DeviationPpm"/> is given; the limit itself when <see cref="Bound"/> is not exact.</summary>
    public required double Ppm { get; init; }

    /// <summary>Standard deviation of <see cref="Ppm"/> where it was recovered from a continuous log, delay and response undone; null
    /// for a number as displayed, whose noise follows from the instrument.</summary>
    public double? DeviationPpm { get; init; }

    /// <summary>How the number bounds the truth.</summary>
    public ReadingBound Bound { get; init; }

    /// <summary>The number as the monitor wrote it where <see cref="Ppm"/> is something else: a limit (0.4 under a limit of 1), bars of a
    /// level, or a concentration recovered from a log; null when it is <see cref="Ppm"/> or was not written.</summary>
    public double? Shown { get; init; }

    /// <summary>Where.</summary>
    public required ReadingPlace Place { get; init; }

    /// <summary>Height of the tip; null when not said.</summary>
    public ProbeHeight? Height { get; init; }

    /// <summary>Spot of the tip; null when not said.</summary>
    public Spot? Spot { get; init; }

    /// <summary>Fans on, off or defrost.</summary>
    public AirState Air { get; init; }

    /// <summary>Finer air state where known.</summary>
    public AirDetail? Detail { get; init; }

    /// <summary>The refrigerant the monitor was set to; null means the fixture's.</summary>
    public string? Gas { get; init; }

    /// <summary>Id of the instrument; null for the survey's first.</summary>
    public string? Instrument { get; init; }

    /// <summary>The technician's note.</summary>
    public string? Note { get; init; }

    /// <summary>Fields of the file that this version does not know, kept for writing back; null when there are none. Not to be changed.</summary>
    public JsonObject? Other { get; init; }
}
