namespace StoreMap.Routing;

/// <summary>SplitMix64 (Steele, Lea, Flood 2014): the same numbers for a seed on every runtime.</summary>
internal struct SeededRandom(ulong seed)
{
    private ulong _state = seed;

    /// <summary>The next 64 bits.</summary>
    public ulong NextBits()
    {
        _state += 0x9E3779B97F4A7C15UL;
        var z = _state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }

    /// <summary>A whole number in [0, <paramref name="limit"/>).</summary>
    public int Below(int limit) => (int)(((NextBits() >> 32) * (ulong)limit) >> 32);

    /// <summary>A number in [0, 1).</summary>
    public double Unit() => (NextBits() >> 11) * (1.0 / (1UL << 53));
}
