namespace StoreMap.Air;

/// <summary>How freely air passes where two kinds of air meet; 1 is no hindrance, 0 is a wall. Our own assumptions: no measured
/// values were found, so whoever judges leaks should marginalise over them.</summary>
internal sealed record AirSettings
{
    /// <summary>Across a case's front (an island's front and back) to the aisle, in [0, 1].</summary>
    public double FrontOpenness { get; init; } = 1;

    /// <summary>Across the shared end of two cases of one line-up, in [0, 1].</summary>
    public double EndOpenness { get; init; } = 0.3;

    /// <summary>Across the end of a section inside one case, in [0, 1].</summary>
    public double SectionOpenness { get; init; } = 1;

    /// <summary>Through a walk-in's doorway, in [0, 1].</summary>
    public double DoorwayOpenness { get; init; } = 1;
}
