using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>Measures of a closed ring whose first point is not repeated.</summary>
internal static class Ring
{
    /// <summary>Square metres, positive when counter-clockwise (shoelace formula, about the first point to keep digits).</summary>
    public static double SignedArea(IReadOnlyList<PlanPoint> ring)
    {
        var sum = 0.0;
        for (var i = 2; i < ring.Count; i++) sum += (ring[i - 1] - ring[0]).Cross(ring[i] - ring[0]);
        return sum / 2;
    }
}
