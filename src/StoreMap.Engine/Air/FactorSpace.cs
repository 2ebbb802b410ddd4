namespace StoreMap.Air;

/// <summary>Room in memory for one factorisation at a time of one pattern: a factor made in it ends when the next one is made.</summary>
/// <remarks>A big store's factor takes tens of megabytes; a search over ranges makes many, and only one is ever needed.</remarks>
internal sealed class FactorSpace
{
    /// <summary>Values of the factor.</summary>
    public double[] Values { get; set; } = [];

    /// <summary>Updates on their way up.</summary>
    public double[] Updates { get; set; } = [];

    /// <summary>The update in hand.</summary>
    public double[] Update { get; set; } = [];

    /// <summary>So many zeros for a factor.</summary>
    public double[] Cleared(int length)
    {
        if (Values.Length == length) Array.Clear(Values);
        else Values = new double[length];
        return Values;
    }
}
