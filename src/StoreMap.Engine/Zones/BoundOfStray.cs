using System.Runtime.Intrinsics;

namespace StoreMap.Zones;

/// <summary>What a reading of "no more than" tells of the aisle gas's share, which strays along a front: of few readings of no gas it was low.</summary>
/// <remarks>Summed over the stray at three points (Gauss-Hermite), whose mean and variance after the reading are carried on (assumed-density
/// filtering; M. Opper, "A Bayesian approach to on-line learning", 1998, from memory).</remarks>
internal static class BoundOfStray
{
    /// <summary>Takes one bound in, for two noise levels side by side.</summary>
    /// <param name="table">Log likelihood of the bound, per entry and level.</param>
    /// <param name="level">The first of the two levels.</param>
    /// <param name="entry">The modelled value, in table steps.</param>
    /// <param name="mean">Mean of the stray before the reading, natural logarithm.</param>
    /// <param name="variance">Its variance.</param>
    /// <returns>The log likelihood, by how much the mean moves, and how much is lost of the variance, over its square.</returns>
    public static (Vector128<double> Log, Vector128<double> Move, Vector128<double> Less) Take(
        double[] table, int level, double entry, Vector128<double> mean, Vector128<double> variance)
    {
        Span<double> log = stackalloc double[2], move = stackalloc double[2], less = stackalloc double[2];
        for (var lane = 0; lane < 2; lane++)
        {
            var reach = Math.Sqrt(3 * variance[lane]);
            var (low, middle, high) = (At(mean[lane] - reach), At(mean[lane]), At(mean[lane] + reach));
            var best = Math.Max(middle, Math.Max(low, high));
            var (a, b, c) = (Math.Exp(low - best), 4 * Math.Exp(middle - best), Math.Exp(high - best));
            var total = a + b + c;
            log[lane] = best + Math.Log(total / 6);
            var shift = (c - a) / total;
            move[lane] = reach * shift;
            less[lane] = (1 - (3 * (((a + c) / total) - (shift * shift)))) / variance[lane];

            double At(double stray)
            {
                var u = Math.Clamp(entry + (stray / ReadingBlock.StepLog), 0, ReadingBlock.Entries - 1.001);
                var k = (int)u;
                var from = table[(k * NoiseLevels.Count) + level + lane];
                return from + ((u - k) * (table[((k + 1) * NoiseLevels.Count) + level + lane] - from));
            }
        }

        return (Vector128.Create<double>(log), Vector128.Create<double>(move), Vector128.Create<double>(less));
    }
}
