using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.History;

/// <summary>How a zone stands against earlier visits.</summary>
public enum ZoneChange
{
    /// <summary>Seen at the latest visit only.</summary>
    New,

    /// <summary>Seen at the latest visit and before.</summary>
    Recurring,

    /// <summary>Seen before, probed at the latest visit in like state, nothing above the detection level. Never "repaired":
    /// that word comes from the service record only.</summary>
    NoLongerSeen,

    /// <summary>Seen before, not probed in like state at the latest visit.</summary>
    NotComparable,
}

/// <summary>One zone at one visit, on net readings of like state.</summary>
/// <param name="Date">Date of the visit.</param>
/// <param name="PeakPpm">Highest net reading in the zone, ppm; null when not probed in like state.</param>
/// <param name="Hit">True when at or above the action level.</param>
/// <param name="AtLeast">True when the peak was over range.</param>
/// <param name="Seen">True when a zone was located here at this visit, in whatever state it was probed.</param>
/// <param name="Below">True when nothing showed above the detection level; <paramref name="PeakPpm"/> is then that level.</param>
/// <param name="DetectionPpm">The detection level there, net ppm; null when not probed in like state.</param>
public sealed record ZoneVisit(
    DateOnly Date, double? PeakPpm, bool Hit, bool AtLeast, bool Seen = false, bool Below = false, double? DetectionPpm = null);

/// <summary>A monotonic trend over visits (Mann-Kendall) and its slope (Sen).</summary>
/// <param name="S">Mann-Kendall S.</param>
/// <param name="P">Two-sided p, exact under 10 visits without ties.</param>
/// <param name="SlopePerMonth">Sen slope, ppm per 30 days.</param>
public sealed record ZoneTrend(int S, double P, double SlopePerMonth);

/// <summary>One zone through the visits.</summary>
/// <param name="Fixture">Fixture id.</param>
/// <param name="From">Metres along the front where it was last seen; null in a walk-in.</param>
/// <param name="To">Metres along the front where it was last seen; null in a walk-in.</param>
/// <param name="Visits">One per visit, oldest first; peaks all of one like state.</param>
/// <param name="Change">How it stands.</param>
/// <param name="Trend">Null under 4 comparable visits.</param>
/// <param name="Service">What the service record says of it, in words; null when nothing.</param>
/// <param name="Note">In a sentence, what this means.</param>
public sealed record ZoneHistory(
    string Fixture, double? From, double? To, IReadOnlyList<ZoneVisit> Visits, ZoneChange Change, ZoneTrend? Trend,
    string? Service, string Note)
{
    /// <summary>The zone as located at the latest visit; null when it was not.</summary>
    public LeakZone? Now => Sightings.Count > 0 ? Sightings[^1] : null;

    /// <summary>The zone as located at each visit, oldest first; null where it was not. Empty when not known.</summary>
    public IReadOnlyList<LeakZone?> Sightings { get; init; } = [];
}

/// <summary>One fixture through the visits: the highest reading anywhere on it, whatever zones there are.</summary>
/// <param name="Fixture">Fixture id.</param>
/// <param name="Visits">One per visit, oldest first; peaks all of one like state; seen where a zone of it was.</param>
/// <param name="Trend">Null under 4 comparable visits.</param>
public sealed record FixtureHistory(string Fixture, IReadOnlyList<ZoneVisit> Visits, ZoneTrend? Trend);

/// <summary>Gas whose source was not placed in a case, through the visits.</summary>
/// <param name="Near">Fixture id where the gas was met when last seen.</param>
/// <param name="Look">Where to look, in words, as said when last seen.</param>
/// <param name="At">The place to look first, plan metres; null when there is none on the plan.</param>
/// <param name="Seen">The visits at which it was seen, oldest first.</param>
/// <param name="Change">How it stands.</param>
/// <param name="Note">In a sentence, what this means.</param>
public sealed record SourceHistory(string Near, string Look, PlanPoint? At, IReadOnlyList<DateOnly> Seen, ZoneChange Change, string Note)
{
    /// <summary>The source as told at the latest visit; null when it was not.</summary>
    public Elsewhere? Now => Sightings.Count > 0 ? Sightings[^1] : null;

    /// <summary>The source as told at each visit, oldest first; null where it was not. Empty when not known.</summary>
    public IReadOnlyList<Elsewhere?> Sightings { get; init; } = [];
}

/// <summary>What cannot be compared, and why.</summary>
/// <param name="Fixture">Fixture id.</param>
/// <param name="Dates">The visits concerned.</param>
/// <param name="Reason">Such as <c>fans off in June, on in July</c>.</param>
public sealed record NotComparable(string Fixture, IReadOnlyList<DateOnly> Dates, string Reason);

/// <summary>Refrigerant added set against what the found leaks can lose, for one system.</summary>
/// <param name="System">System id.</param>
/// <param name="Refrigerant">Type.</param>
/// <param name="Days">Days covered.</param>
/// <param name="AddedKilograms">Net kilograms added in them (added less recovered).</param>
/// <param name="ExplainedLowKilograms">Low end of what the found leaks can have lost in them, kilograms.</param>
/// <param name="ExplainedHighKilograms">High end, kilograms.</param>
/// <param name="AnnualisedPercent">Annualised leak rate in percent of full charge (annualising method); null when the charge is unknown.</param>
/// <param name="AddsUp">False when even the high end explains less than half of what was added: the main leak has
/// probably not been found.</param>
/// <param name="NotChecked">What of this system was not checked, in words.</param>
public sealed record MassBalance(
    string System, string Refrigerant, int Days, double AddedKilograms, double ExplainedLowKilograms, double ExplainedHighKilograms,
    double? AnnualisedPercent, bool AddsUp, IReadOnlyList<string> NotChecked)
{
    /// <summary>Ids of fixtures on this system at which the latest visit met gas whose source is not placed in a case: its loss is in
    /// neither end, and may be what is missing.</summary>
    public IReadOnlyList<string> SourcesNear { get; init; } = [];

    /// <summary>Day of the addition that <see cref="AnnualisedPercent"/> is of; null without one.</summary>
    public DateOnly? LatestAddition { get; init; }
}

/// <summary>Two or more visits side by side.</summary>
/// <param name="Dates">Dates of the visits, oldest first.</param>
/// <param name="Zones">Zones, recurring first, then new, then no longer seen, then not comparable.</param>
/// <param name="NotComparable">What could not be compared.</param>
/// <param name="Balances">One per system with additions on record.</param>
public sealed record Comparison(
    IReadOnlyList<DateOnly> Dates, IReadOnlyList<ZoneHistory> Zones, IReadOnlyList<NotComparable> NotComparable,
    IReadOnlyList<MassBalance> Balances)
{
    /// <summary>Fixtures with a hit at one visit or more and comparable readings at two or more, in the plan's order.</summary>
    public IReadOnlyList<FixtureHistory> Fixtures { get; init; } = [];

    /// <summary>Sources outside the cases and gas that nothing explained, in the order of the zones.</summary>
    public IReadOnlyList<SourceHistory> Sources { get; init; } = [];
}
