namespace StoreMap.Evaluation;

/// <summary>Claims of similar stated probability.</summary>
/// <param name="From">Lower end of the bin.</param>
/// <param name="To">Upper end.</param>
/// <param name="Stated">Mean stated probability.</param>
/// <param name="True">Share that came true.</param>
internal sealed record ReliabilityBin(double From, double To, double Stated, Estimate True);

/// <summary>Bins of a reliability diagram.</summary>
internal static class Reliability
{
    private static readonly double[] Edges = [0, 0.02, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1];

    public static IEnumerable<ReliabilityBin> Bins(IEnumerable<Claim> claims)
    {
        var all = claims.ToList();
        for (var i = 0; i + 1 < Edges.Length; i++)
        {
            var last = i + 2 == Edges.Length;
            var inside = all.Where(c => c.Probability >= Edges[i] && (c.Probability < Edges[i + 1] || last)).ToList();
            if (inside.Count < 10) continue;
            yield return new ReliabilityBin(Edges[i], Edges[i + 1], inside.Average(c => c.Probability), Stats.Share(inside.Select(c => c.True)));
        }
    }
}
