using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>How things stand when a walk is replanned on the way.</summary>
public sealed record ReplanRequest
{
    /// <summary>Where the technician stands, plan metres.</summary>
    public required PlanPoint At { get; init; }

    /// <summary>Ids of the points read, or of the fixtures, equipment or rooms done with, in the order done as far as known: the last sets
    /// the gas the monitor is on.</summary>
    public IReadOnlyList<string> Done { get; init; } = [];

    /// <summary>Ids of points, fixtures, equipment or rooms that can't be reached today.</summary>
    public IReadOnlyList<string> Unreachable { get; init; } = [];

    /// <summary>Points added, each list walked in one go: a close-in pass, or single points of the user's own.</summary>
    public IReadOnlyList<IReadOnlyList<ProbePoint>> Added { get; init; } = [];

    /// <summary>Share of the remaining walk that a change to the rest of the order must save to be made, in [0, 1]. The default is 0.05.</summary>
    public double LeastSaving { get; init; } = 0.05;

    /// <summary>Speeds, dwells and fixed times.</summary>
    public Protocol Protocol { get; init; } = new();

    /// <summary>Stops the work.</summary>
    public CancellationToken Cancel { get; init; }
}

/// <summary>What replanning changed.</summary>
/// <param name="At">Where the technician stands; the first leg begins there.</param>
/// <param name="Home">Where the last leg ends; null when the walk ends at its last point.</param>
/// <param name="Done">Number of points left out because they are done.</param>
/// <param name="Unreachable">Ids left out because they can't be reached: to be told in the report as not checked.</param>
/// <param name="Added">Ids of the points added.</param>
/// <param name="Reordered">True when the rest is not in its earlier order.</param>
public sealed record RouteReplanned(
    PlanPoint At, ProbePoint? Home, int Done, IReadOnlyList<string> Unreachable, IReadOnlyList<string> Added, bool Reordered);
