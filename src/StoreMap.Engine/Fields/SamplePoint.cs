using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>A value known at a place.</summary>
/// <param name="At">Metres.</param>
/// <param name="Value">Finite, in any unit.</param>
public readonly record struct SamplePoint(PlanPoint At, double Value)
{
    /// <summary>Refuses sample points that no interpolation can use: none at all, or a coordinate or value that is no number.</summary>
    internal static void Check(IReadOnlyList<SamplePoint> samples)
    {
        if (samples.Count == 0) throw new ArgumentException("Interpolation needs at least one sample point.", nameof(samples));
        for (var i = 0; i < samples.Count; i++)
        {
            if (!double.IsFinite(samples[i].At.X) || !double.IsFinite(samples[i].At.Y) || !double.IsFinite(samples[i].Value))
                throw new ArgumentException($"Sample point {i + 1} has a coordinate or value that is not a finite number.", nameof(samples));
        }
    }

    /// <summary>Indices of the nearest sample points, nearest first; of equally near ones the earlier counts as nearer.</summary>
    internal static int[] Nearest(IReadOnlyList<SamplePoint> samples, PlanPoint at, int count)
    {
        var distances = new double[samples.Count];
        var indices = new int[samples.Count];
        for (var i = 0; i < indices.Length; i++)
        {
            indices[i] = i;
            distances[i] = samples[i].At.DistanceTo(at);
        }

        Array.Sort(indices, (a, b) => distances[a] != distances[b] ? distances[a].CompareTo(distances[b]) : a.CompareTo(b));
        return indices[..Math.Min(count, indices.Length)];
    }
}
