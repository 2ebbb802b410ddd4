namespace StoreMap.Routing;

/// <summary>How hard to search. The same seed and effort give the same tour; a time cap only cuts the search short.</summary>
public sealed record TourBudget
{
    /// <summary>Search steps: one step perturbs the tour in one place and mends it. 0 gives the first local optimum;
    /// null takes <see cref="DefaultEffort"/>.</summary>
    public long? Effort { get; init; }

    /// <summary>Multiplications allowed for each lower bound; null takes <see cref="LowerBound.DefaultWork"/>. Less leaves more room between
    /// bound and walk; 0 leaves the bounds of a route out, which are then 0.</summary>
    public long? BoundWork { get; init; }

    /// <summary>Seed of the perturbations.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Asked now and then; true stops the search at the best tour so far. The caller's clock, if any, lives here.</summary>
    public Func<bool>? OutOfTime { get; init; }

    /// <summary>Told the share of the effort spent, in [0, 1].</summary>
    public IProgress<double>? Progress { get; init; }

    /// <summary>Gives up with <see cref="OperationCanceledException"/>.</summary>
    public CancellationToken Cancel { get; init; }

    /// <summary>Steps taken when nothing is said.</summary>
    /// <param name="count">Number of stops.</param>
    public static long DefaultEffort(int count) => Math.Max(25_000, 60L * count);
}
