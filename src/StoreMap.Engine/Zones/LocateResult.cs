using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>What earlier visits and the service record say, handed to the locator by the caller.</summary>
/// <param name="Fixture">Fixture id.</param>
/// <param name="Along">Metres along the front; null for the whole fixture or a walk-in.</param>
/// <param name="Weight">Odds multiplier within about a panel of the place: above 1 for a former leak, below 1 after a verified repair.</param>
/// <param name="Reason">In words, such as <c>leaked here in May</c>.</param>
public sealed record LeakPrior(string Fixture, double? Along, double Weight, string Reason);

/// <summary>A panel and the chance that the leak is behind it.</summary>
/// <param name="Id">Panel id.</param>
/// <param name="From">Metres along the front.</param>
/// <param name="To">Metres along the front.</param>
/// <param name="Probability">Given the zone's leak exists, in [0.001, 1].</param>
public sealed record PanelChance(string Id, double From, double To, double Probability);

/// <summary>The stretch of a fixture that holds one leak.</summary>
public sealed record LeakZone
{
    /// <summary>Fixture id.</summary>
    public required string Fixture { get; init; }

    /// <summary>Probability that this leak exists.</summary>
    public required double Probability { get; init; }

    /// <summary>Probability that the interval holds its place, given that it exists.</summary>
    public double Level { get; init; } = 0.9;

    /// <summary>Metres along the front where the interval begins; null in a walk-in.</summary>
    public double? From { get; init; }

    /// <summary>Metres along the front where the interval ends; null in a walk-in.</summary>
    public double? To { get; init; }

    /// <summary>Median place, metres along the front; null in a walk-in.</summary>
    public double? Center { get; init; }

    /// <summary>Likeliest place on the plan, metres.</summary>
    public required PlanPoint At { get; init; }

    /// <summary>Radius of the disc that holds the place with the stated level, metres; null along a front.</summary>
    public double? Radius { get; init; }

    /// <summary>Highest net reading that the zone explains, ppm.</summary>
    public required double PeakPpm { get; init; }

    /// <summary>True when that reading was over range: the peak is at least <see cref="PeakPpm"/>.</summary>
    public bool PeakOverRange { get; init; }

    /// <summary>Rough strength: <c>small</c>, <c>medium</c> or <c>large</c>; <c>unknown</c> where monitors gave hit or no hit only. Never a leak rate.</summary>
    public required string Strength { get; init; }

    /// <summary>Low end of the strength's honest range, kilograms a year.</summary>
    public double StrengthLowKilogramsPerYear { get; init; }

    /// <summary>High end of the strength's honest range, kilograms a year.</summary>
    public double StrengthHighKilogramsPerYear { get; init; }

    /// <summary>Why, in plain words.</summary>
    public required string Reason { get; init; }

    /// <summary>Panels that may hide it, in order along the front; empty in a walk-in.</summary>
    public IReadOnlyList<PanelChance> Panels { get; init; } = [];

    /// <summary>Fitted curves along the front for the detail sheet, one for each kind of air that was read at the fixture, the air of the
    /// case with fans on first; empty in a walk-in.</summary>
    public IReadOnlyList<FrontProfile> Profiles { get; init; } = [];
}

/// <summary>Gas is here, its source is probably not in this case.</summary>
/// <param name="Near">Fixture or room id where the gas was met.</param>
/// <param name="Probability">Probability that a source outside the cases explains it.</param>
/// <param name="Look">Where to look, in words: a drop, a pipe run, a trench, a room.</param>
/// <param name="At">The place to look first, plan metres; null when there is none on the plan.</param>
public sealed record Elsewhere(string Near, double Probability, string Look, PlanPoint? At)
{
    /// <summary>True for gas that neither a leak in a case nor a source outside explains well.</summary>
    public bool Unexplained { get; init; }
}

/// <summary>A fixture with nothing above the detection level at the points probed, or nothing but gas from elsewhere, and what would have
/// shown.</summary>
/// <param name="Fixture">Fixture id.</param>
/// <param name="Probability">Probability that it has no leak of at least the smallest size.</param>
/// <param name="SmallestSeenPpm">Net ppm that would have shown.</param>
/// <param name="LowKilogramsPerYear">Low end of the leak that ppm stands for, kilograms a year.</param>
/// <param name="HighKilogramsPerYear">High end, kilograms a year.</param>
/// <param name="ExplainedBy">What explains gas that was read at it, such as <c>the leak at 5B</c>; its smallest leak then had to show above
/// that gas. Null when there was none.</param>
public sealed record NoLeakSeen(
    string Fixture, double Probability, double SmallestSeenPpm, double LowKilogramsPerYear, double HighKilogramsPerYear, string? ExplainedBy = null);

/// <summary>Go here next.</summary>
/// <param name="Fixture">Fixture id; null in open air.</param>
/// <param name="At">Where the probe goes, plan metres.</param>
/// <param name="Along">Metres along the front; null without one.</param>
/// <param name="Spot">Spot of the tip.</param>
/// <param name="Air">Air state to probe in.</param>
/// <param name="Gain">Expected information, bits.</param>
/// <param name="Why">In words, with the price when fans must stop.</param>
public sealed record NextProbe(string? Fixture, PlanPoint At, double? Along, Spot Spot, AirState Air, double Gain, string Why)
{
    /// <summary>How far to either side the tip is moved under lines overhead, metres: 8 ft, beyond what gas from there sinks over.</summary>
    public const double SweepMetres = 8 * LengthUnits.MetresPerFoot;
}

/// <summary>The answer of a visit: which fixture leaks, where, which panel first.</summary>
/// <param name="Zones">Most probable first, of those at 0.95 or more the one with the most gas; those under 0.05 left out.</param>
/// <param name="Open">Panel ids in the order of opening, over all zones.</param>
/// <param name="Elsewhere">Gas whose source is probably not in a case.</param>
/// <param name="NoLeakSeen">Fixtures with nothing above the detection level, in the plan's order.</param>
/// <param name="NotProbed">Ids of fixtures without a reading.</param>
/// <param name="Next">The next best probe; null when nothing more is to be found here.</param>
public sealed record LocateResult(
    IReadOnlyList<LeakZone> Zones, IReadOnlyList<string> Open, IReadOnlyList<Elsewhere> Elsewhere,
    IReadOnlyList<NoLeakSeen> NoLeakSeen, IReadOnlyList<string> NotProbed, NextProbe? Next)
{
    /// <summary>Panels lifted at the visit, which the answer takes into account.</summary>
    public IReadOnlyList<PanelCheck> Lifted { get; init; } = [];

    /// <summary>True for a zone after the likeliest of its fixture: a further leak there, not the same one doubted.</summary>
    public bool IsFurther(LeakZone zone) => !ReferenceEquals(Zones.First(z => z.Fixture == zone.Fixture), zone);
}
