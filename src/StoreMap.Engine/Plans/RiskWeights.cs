namespace StoreMap.Plans;

/// <summary>How likely a leak is met at each probe point: what risk-first walks are ordered by. A plain value, handed over by whoever
/// knows the store's history.</summary>
public sealed record RiskWeights
{
    /// <summary>Expected leaks that the reading at a point would show, by point id; finite, not negative. Points left out count 0.</summary>
    public required IReadOnlyDictionary<string, double> Expected { get; init; }

    /// <summary>Why a fixture or piece of equipment stands out, in words, by its id.</summary>
    public IReadOnlyDictionary<string, string> Reasons { get; init; } = new Dictionary<string, string>();

    /// <summary>Expected leaks at a point; 0 when nothing is said of it.</summary>
    public double At(string point) => Expected.GetValueOrDefault(point);
}
