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

    /// <summary>No order of these standing places at all is shorter than this, metres, groups torn or not.</summary>
    public double AnyOrderBound { get; init; }

    /// <summary>Where the minutes go.</summary>
    public required RouteMinutes Minutes { get; init; }

    /// <summary>Search steps taken.</summary>
    public required long Effort { get; init; }

    /// <summary>True when a time cap cut the search short.</summary>
    public bool CutShort { get; init; }

    /// <summary>What was moved or left out, with the reason.</summary>
    public IReadOnlyList<Problem> Warnings { get; init; } = [];
}
