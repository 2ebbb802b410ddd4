using System.Runtime.CompilerServices;

namespace StoreMap.Zones;

/// <summary>The stretch of a line-up over which gas from above sinks in, normal round the place above it; what the line-up's ends cut off
/// sinks in beside them.</summary>
internal sealed class SinkingStretch
{
    /// <summary>Deviations beyond which nothing sinks.</summary>
    private const double Farthest = 3;

    private readonly int[] first;
    private readonly double[][] weights;
    private readonly double[] narrow;

    /// <summary>Works the shares out for a source above each cell.</summary>
    /// <param name="axis">The line-up.</param>
    /// <param name="width">Deviation of the stretch, metres.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public SinkingStretch(LineUpAxis axis, double width)
    {
        var n = axis.Count;
        (first, weights, narrow) = (new int[n], new double[n][], new double[n]);
        for (var c = 0; c < n; c++)
        {
            var (from, to) = (c, c);
            while (from > 0 && axis.Centres[c] - axis.Centres[from - 1] <= Farthest * width) from--;
            while (to + 1 < n && axis.Centres[to + 1] - axis.Centres[c] <= Farthest * width) to++;
            first[c] = from;
            var row = weights[c] = new double[to - from + 1];
            for (var k = from; k <= to; k++)
            {
                var d = (axis.Centres[k] - axis.Centres[c]) / width;
                row[k - from] = axis.Widths[k] * Math.Exp(-0.5 * d * d);
            }

            var total = row.Sum();
            for (var k = 0; k < row.Length; k++) row[k] /= total;
        }
    }

    /// <summary>Makes of what a reading shows of a source in each cell what it shows of one above each cell.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Widen(Span<double> response)
    {
        response.CopyTo(narrow);
        for (var c = 0; c < weights.Length; c++)
        {
            var row = weights[c];
            var under = narrow.AsSpan(first[c], row.Length);
            var sum = 0.0;
            for (var k = 0; k < row.Length; k++) sum += row[k] * under[k];
            response[c] = sum;
        }
    }
}
