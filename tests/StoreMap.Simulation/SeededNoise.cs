namespace StoreMap.Simulation;

/// <summary>A small seeded generator (SplitMix64) with the draws the simulator needs; the same numbers on every machine.</summary>
public sealed class SeededNoise(ulong seed)
{
    private ulong state = seed;

    /// <summary>Uniform in [0, 1).</summary>
    public double Uniform()
    {
        state += 0x9E3779B97F4A7C15;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return ((z ^ (z >> 31)) >> 11) * (1.0 / (1UL << 53));
    }

    /// <summary>Standard normal (Box-Muller, one of the pair).</summary>
    public double Normal() => Math.Sqrt(-2 * Math.Log(1 - Uniform())) * Math.Cos(2 * Math.PI * Uniform());

    /// <summary>An independent generator, for a part of the store that must not disturb the others.</summary>
    public SeededNoise Fork(ulong salt) => new(state ^ (salt * 0xD6E8FEB86659FD93));
}
