namespace StoreMap.History;

/// <summary>What history weighs when leaks are located: odds multipliers, 1 means no news. Judgement, not measurement: set them
/// to what your own stores show. Explained in docs/history.md.</summary>
public sealed record LeakPriorSettings
{
    /// <summary>A zone seen at one earlier visit. <value>The default is 4.</value></summary>
    public double SeenOnce { get; init; } = 4;

    /// <summary>Seen at two. <value>The default is 8.</value></summary>
    public double SeenTwice { get; init; } = 8;

    /// <summary>Seen at three or more. <value>The default is 16.</value></summary>
    public double SeenOften { get; init; } = 16;

    /// <summary>A finding that is open or was reopened. <value>The default is 10.</value></summary>
    public double OpenFinding { get; init; } = 10;

    /// <summary>A place that was valved off and has no pressure. <value>The default is 0.5.</value></summary>
    public double Isolated { get; init; } = 0.5;

    /// <summary>Repaired since it was last seen, not verified. <value>The default is 2.</value></summary>
    public double RepairedUnverified { get; init; } = 2;

    /// <summary>Repaired and verified since it was last seen. <value>The default is 0.5.</value></summary>
    public double RepairedVerified { get; init; } = 0.5;
}
