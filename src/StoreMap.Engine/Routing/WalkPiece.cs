namespace StoreMap.Routing;

/// <summary>A stretch of a walk, summed up so that stretches can be joined without looking inside: the trick that makes searches for
/// least latency quick (Silva, Subramanian, Vidal and Ochi 2012).</summary>
/// <param name="First">Index of its first point; -1 for no stretch at all.</param>
/// <param name="Last">Index of its last point.</param>
/// <param name="Metres">Walked inside it.</param>
/// <param name="Seconds">From its first point's arrival to its last point's reading.</param>
/// <param name="Weight">Sum of its points' weights.</param>
/// <param name="Latency">Sum of weight times seconds from the stretch's begin to the point's reading.</param>
internal readonly record struct WalkPiece(int First, int Last, double Metres, double Seconds, double Weight, double Latency)
{
    /// <summary>No stretch.</summary>
    public static WalkPiece None => new(-1, -1, 0, 0, 0, 0);

    /// <summary>This stretch, a walk, and the next stretch.</summary>
    /// <param name="next">What follows.</param>
    /// <param name="metres">The walk between.</param>
    /// <param name="seconds">Its time.</param>
    public WalkPiece Then(in WalkPiece next, double metres, double seconds) => new(
        First, next.Last, Metres + metres + next.Metres, Seconds + seconds + next.Seconds, Weight + next.Weight,
        Latency + next.Latency + (next.Weight * (Seconds + seconds)));
}
