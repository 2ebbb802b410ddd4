namespace StoreMap.Routing;

/// <summary>What is asked of a route.</summary>
public sealed record RouteRequest
{
    /// <summary>True when the walk returns to its first point. The default is true.</summary>
    public bool Closed { get; init; } = true;

    /// <summary>Own points only: id of the first point; null when free. A walk with a first point need not return.</summary>
    public string? Start { get; init; }

    /// <summary>Speeds, dwells and fixed times.</summary>
    public Protocol Protocol { get; init; } = new();

    /// <summary>Effort, seed, time cap, progress, cancellation.</summary>
    public TourBudget Budget { get; init; } = new();
}
