namespace StoreMap.History;

/// <summary>How visits are compared. Lengths in metres. Explained in docs/history.md.</summary>
public sealed record ComparisonSettings
{
    /// <summary>A located zone counts as seen from this probability on. <value>The default is 0.5.</value></summary>
    public double FoundProbability { get; init; } = 0.5;

    /// <summary>Zones of two visits are one when their stretches overlap or lie no farther apart. <value>The default is 0.3 m (1 ft).</value></summary>
    public double MatchGapMetres { get; init; } = 0.3;

    /// <summary>Readings this far outside a zone's stretch still belong to it: half of a coarse step of 4.5 ft, and a little more.
    /// <value>The default is 0.75 m.</value></summary>
    public double ReachMetres { get; init; } = 0.75;

    /// <summary>An entry of the service record this far from a zone's stretch is about it: about a panel. <value>The default is 1.22 m (4 ft).</value></summary>
    public double ServiceReachMetres { get; init; } = 1.22;

    /// <summary>Sources outside the cases at two visits are one when their places lie no farther apart. <value>The default is 3 m (10 ft).</value></summary>
    public double SourceReachMetres { get; init; } = 3;

    /// <summary>A trend needs so many comparable visits. <value>The default is 4.</value></summary>
    public int TrendVisits { get; init; } = 4;

    /// <summary>Found leaks must be able to explain this share of what was added, else it doesn't add up. <value>The default is 0.5.</value></summary>
    public double ExplainedShare { get; init; } = 0.5;
}
