using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>One walk between two probe points.</summary>
/// <param name="From">Id of the point left.</param>
/// <param name="To">Id of the point reached.</param>
/// <param name="Path">Corners of the walk, plan metres, both ends included.</param>
/// <param name="Length">Metres.</param>
public sealed record RouteLeg(string From, string To, IReadOnlyList<PlanPoint> Path, double Length);

/// <summary>Where the minutes go.</summary>
/// <param name="Walking">Minutes on foot.</param>
/// <param name="Probing">Minutes holding the probe.</param>
/// <param name="Handling">Minutes for doors, ladders and covers.</param>
/// <param name="Fixed">Minutes for sign-in, warm-up, zero, restoring and write-up.</param>
public sealed record RouteMinutes(double Walking, double Probing, double Handling, double Fixed)
{
    /// <summary>All of it.</summary>
    public double Total => Walking + Probing + Handling + Fixed;
}

/// <summary>What a risk-first walk gains and costs.</summary>
/// <param name="ExpectedMinutes">Minutes on the walk until a leak is met on average, where one leak lies as the weights say.</param>
/// <param name="UsualExpectedMinutes">The same on the usual walk, the shortest found.</param>
/// <param name="UsualLength">Metres of the usual walk.</param>
/// <param name="UsualMinutes">Minutes of the usual walk in all.</param>
/// <param name="Growth">By which share of the usual walk's metres, and of its minutes on foot and for changes of gas, this one was allowed to
/// be longer.</param>
/// <param name="Likeliest">Fixtures and equipment with the largest share of the expected leaks, largest first.</param>
public sealed record RouteRisk(
    double ExpectedMinutes, double UsualExpectedMinutes, double UsualLength, double UsualMinutes, double Growth, IReadOnlyList<RiskPlace> Likeliest);

/// <summary>A place that stands out.</summary>
/// <param name="Element">Fixture or equipment id.</param>
/// <param name="Share">Its share of the expected leaks, in [0, 1].</param>
/// <param name="Reason">Why, in words; null when it is only its size.</param>
public sealed record RiskPlace(string Element, double Share, string? Reason);

/// <summary>Whether an earlier order was kept.</summary>
/// <param name="IsKept">True when the route is the earlier order.</param>
/// <param name="SavingMinutes">What the best order found now saves against it, minutes; 0 when nothing.</param>
/// <param name="LeastSaving">Share of the earlier order's minutes that it had to save to be taken.</param>
public sealed record RouteKept(bool IsKept, double SavingMinutes, double LeastSaving);

/// <summary>What a search over groups makes small: metres between groups, with changes of gas and aisles walked again counted in as metres.</summary>
/// <param name="Metres">Of the order found; without the ways to backgrounds and inside groups.</param>
/// <param name="LowerBound">No order and sense of the groups weighs less.</param>
public sealed record RouteWeighed(double Metres, double LowerBound);

/// <summary>A change of the monitor's gas on the way, with its zero.</summary>
/// <param name="Before">Id of the point before which it is set.</param>
/// <param name="Gas">The refrigerant.</param>
/// <param name="Minutes">Minutes it takes.</param>
public sealed record GasChange(string Before, string Gas, double Minutes);

/// <summary>A probe route: points, their order and the walks between them. Metres.</summary>
public sealed record Route
{
    /// <summary>All probe points, in the order of the fixtures.</summary>
    public required IReadOnlyList<ProbePoint> Points { get; init; }

    /// <summary>Point ids in walking order, each once.</summary>
    public required IReadOnlyList<string> Order { get; init; }

    /// <summary>True when the walk returns to its first point.</summary>
    public required bool Closed { get; init; }

    /// <summary>The walks, in order; with the return when closed.</summary>
    public required IReadOnlyList<RouteLeg> Legs { get; init; }

    /// <summary>Total length, metres.</summary>
    public required double Length { get; init; }

    /// <summary>No walk of the kind asked for is shorter than this, metres: of own points none in any order, of a draft none that
    /// keeps its groups and turns.</summary>
    public required double LowerBound { get; init; }

    /// <summary>True when <see cref="LowerBound"/> holds for walks that keep the groups; false when it holds for any order.</summary>
    public bool BoundKeepsGroups { get; init; }

    /// <summary>No order of these standing places at all is shorter than this, metres, groups torn or not; 0 when it
    /// was not worked out.</summary>
    public double AnyOrderBound { get; init; }

    /// <summary>Where the minutes go.</summary>
    public required RouteMinutes Minutes { get; init; }

    /// <summary>No walk that keeps the groups and turns takes fewer minutes, changes of gas included; null when it was not worked out.</summary>
    public double? MinutesLowerBound { get; init; }

    /// <summary>What the order was chosen by, and what no order can be under; null where it was chosen by something else (likeliest places first,
    /// an earlier order, the time of day).</summary>
    public RouteWeighed? Weighed { get; init; }

    /// <summary>The gas that the monitor is set to at the start; null where no point has one.</summary>
    public string? FirstGas { get; init; }

    /// <summary>Changes of the monitor's gas, in walking order; each is a step with its zero.</summary>
    public IReadOnlyList<GasChange> GasChanges { get; init; } = [];

    /// <summary>What walking the likeliest places first gains; null when it was not asked for or nothing is known.</summary>
    public RouteRisk? Risk { get; init; }

    /// <summary>When things happen; null when no time was given to begin at. The minutes leave detours for defrosts out.</summary>
    public RouteClock? Clock { get; init; }

    /// <summary>Minutes with the hits to be expected; null when none were given.</summary>
    public RouteForecast? Forecast { get; init; }

    /// <summary>What became of an earlier order; null when none was given.</summary>
    public RouteKept? Kept { get; init; }

    /// <summary>What replanning on the way changed; null for a walk planned as a whole. The first leg then begins where the technician
    /// stands, and the last ends where the earlier walk did.</summary>
    public RouteReplanned? Replanned { get; init; }

    /// <summary>Search steps taken.</summary>
    public required long Effort { get; init; }

    /// <summary>True when a time cap cut the search short.</summary>
    public bool CutShort { get; init; }

    /// <summary>Points of the draft that can't be walked to from the others and were left out, for the walk sheet; empty where they are an error.</summary>
    public IReadOnlyList<ProbePoint> LeftOut { get; init; } = [];

    /// <summary>What was moved, with the reason.</summary>
    public IReadOnlyList<Problem> Warnings { get; init; } = [];
}
