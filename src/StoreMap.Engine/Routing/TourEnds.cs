namespace StoreMap.Routing;

/// <summary>Where a tour begins and ends.</summary>
/// <param name="IsClosed">True when it returns to its first stop.</param>
/// <param name="First">Index of the first stop; null when free.</param>
/// <param name="Last">Index of the last stop of an open tour; null when free. Always null for a closed one.</param>
public readonly record struct TourEnds(bool IsClosed, int? First, int? Last)
{
    /// <summary>A closed tour.</summary>
    public static TourEnds Closed => new(true, null, null);

    /// <summary>An open tour, both ends free.</summary>
    public static TourEnds Open => new(false, null, null);

    /// <summary>An open tour from a given stop, the other end free.</summary>
    public static TourEnds From(int first) => new(false, first, null);

    /// <summary>An open tour from one given stop to another.</summary>
    public static TourEnds Between(int first, int last) => new(false, first, last);

    /// <summary>Checks the ends against the number of stops.</summary>
    /// <exception cref="ArgumentException">An end lies outside [0, count), both are the same stop of several, or a closed tour has a last stop.</exception>
    internal void Check(int count)
    {
        if (First is < 0 || First >= count || Last is < 0 || Last >= count)
            throw new ArgumentException($"The ends must be stops 0 to {count - 1}.", nameof(count));
        if (IsClosed && Last is not null) throw new ArgumentException("A closed tour has no last stop.", nameof(count));
        if (count > 1 && First is not null && First == Last) throw new ArgumentException("First and last stop must differ.", nameof(count));
    }
}
