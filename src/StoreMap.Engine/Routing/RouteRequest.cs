using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>What is asked of a route.</summary>
public sealed record RouteRequest
{
    /// <summary>True when the walk returns to its first point. The default is true.</summary>
    public bool Closed { get; init; } = true;

    /// <summary>Own points only: id of the first point; null when free. A walk with a first point need not return.</summary>
    public string? Start { get; init; }

    /// <summary>Walk the likeliest places first by these weights; null takes the shortest walk.</summary>
    public RiskWeights? Risk { get; init; }

    /// <summary>By which share of the shortest walk's metres a risk-first walk may be longer, in [0, 1]. The default is 0.1.</summary>
    public double RiskGrowth { get; init; } = 0.1;

    /// <summary>Point ids of an earlier walk, in its order, which is kept unless a change saves more than <see cref="LeastSaving"/>; null
    /// when there is none. Not together with <see cref="Risk"/>.</summary>
    public IReadOnlyList<string>? Keep { get; init; }

    /// <summary>Share of the minutes that a change must save to be made to a known order, in [0, 1]. The default is 0.05.</summary>
    public double LeastSaving { get; init; } = 0.05;

    /// <summary>Store time of sign-in, which sets the clock and fits checks into defrosts; null leaves time of day out.</summary>
    public TimeOnly? Begin { get; init; }

    /// <summary>Hits to be expected, for the likely and the bad night; null leaves both out.</summary>
    public double? ExpectedHits { get; init; }

    /// <summary>Real over planned time of earlier visits (<see cref="Forecast.Pace"/>); null when unknown.</summary>
    public double? Pace { get; init; }

    /// <summary>Speeds, dwells and fixed times.</summary>
    public Protocol Protocol { get; init; } = new();

    /// <summary>Effort, seed, time cap, progress, cancellation.</summary>
    public TourBudget Budget { get; init; } = new();
}
