using MathNet.Numerics;

namespace StoreMap.History;

/// <summary>The Mann-Kendall test for a steady rise or fall, whatever its shape.</summary>
/// <param name="Count">Values used.</param>
/// <param name="S">Pairs that rise less pairs that fall.</param>
/// <param name="Variance">Variance of S without a trend, ties counted: [n(n−1)(2n+5) − Σ t(t−1)(2t+5)] / 18.</param>
/// <param name="Z">(S − sign S) / √variance; 0 when S or the variance is 0.</param>
/// <param name="P">Two-sided probability of an S as far from 0 without a trend: exact under 10 values without ties, else normal; 1 when the
/// variance is 0.</param>
/// <param name="Exact">True when <paramref name="P"/> is exact.</param>
/// <remarks>Sources: Mann 1945; Kendall 1975. With 4 values p is never below 0.083; with 5 it can reach 0.017.</remarks>
public sealed record MannKendall(int Count, long S, double Variance, double Z, double P, bool Exact)
{
    private const int ExactBelow = 10;

    /// <summary>Kendall's tau without correction for ties: S over the number of pairs; 0 under two values.</summary>
    public double Tau => Count < 2 ? 0 : S / (0.5 * Count * (Count - 1));

    /// <summary>Tests a series.</summary>
    /// <param name="values">In order of time; NaN values are left out.</param>
    public static MannKendall Of(IReadOnlyList<double> values)
    {
        var used = values.Where(v => !double.IsNaN(v)).ToArray();
        var n = used.Length;
        long s = 0;
        for (var i = 0; i < n; i++)
        {
            for (var j = i + 1; j < n; j++) s += used[j].CompareTo(used[i]);
        }

        var ties = used.GroupBy(v => v).Select(g => (double)g.Count()).Where(t => t > 1).ToArray();
        var variance = (((double)n * (n - 1) * ((2 * n) + 5)) - ties.Sum(t => t * (t - 1) * ((2 * t) + 5))) / 18;
        var z = s == 0 || variance <= 0 ? 0 : (s - Math.Sign(s)) / Math.Sqrt(variance);
        var exact = ties.Length == 0 && n is > 1 and < ExactBelow;
        var p = exact ? ExactP(n, s) : variance <= 0 ? 1 : SpecialFunctions.Erfc(Math.Abs(z) / Math.Sqrt(2));
        return new MannKendall(n, s, variance, z, p, exact);
    }

    /// <summary>Two-sided probability of |S| at least as large among all orders of n different values, by counting orders by
    /// their number of inversions; right for any n up to 20.</summary>
    internal static double ExactP(int n, long s)
    {
        double[] orders = [1];
        for (var k = 2; k <= n; k++)
        {
            var next = new double[orders.Length + k - 1];
            for (var i = 0; i < orders.Length; i++)
            {
                for (var j = 0; j < k; j++) next[i + j] += orders[i];
            }

            orders = next;
        }

        // An order with i inversions has S = pairs − 2 i.
        var pairs = (long)n * (n - 1) / 2;
        var far = 0.0;
        for (var i = 0; i < orders.Length; i++)
        {
            if (Math.Abs(pairs - (2 * i)) >= Math.Abs(s)) far += orders[i];
        }

        return far / orders.Sum();
    }
}
