using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace StoreMap.Zones;

/// <summary>The likelihood of a block's readings for modelled values, by table look-up and a Kalman filter along the axis.</summary>
/// <remarks>Residuals hold additive noise (share a), turbulence that differs between readings, and a patch deviation that is an
/// Ornstein-Uhlenbeck process along the axis; the filter integrates the patch exactly in O(n), for the four noise levels side by
/// side. Censored readings enter through the normal distribution function with the patch's variance but not its correlation.</remarks>
internal sealed class BlockTables
{
    /// <summary>Degrees of freedom of the readings' Student law: gusts make tails heavier than normal.</summary>
    public const double Freedom = 5;

    private const int E = ReadingBlock.Entries;
    private const int Levels = NoiseLevels.Count;
    private static readonly Vector256<double> Turbulence = Vector256.Create([.. NoiseLevels.Turbulence.Select(x => x * x)]);
    private static readonly Vector256<double> Patch = Vector256.Create([.. NoiseLevels.Patch.Select(x => x * x)]);
    private static readonly Vector256<double> Weight = Vector256.Create(NoiseLevels.Weight);
    private readonly ReadingBlock block;
    private readonly double[] residual;
    private readonly double[] additive;
    private readonly double[] gain;
    private readonly double[]?[] censored;
    private readonly int exact;
    private readonly int[] index;
    private readonly double[] fraction;

    /// <summary>Takes the tables over.</summary>
    /// <param name="block">The readings.</param>
    /// <param name="residual">Per reading and entry, observed less modelled on the comparison scale.</param>
    /// <param name="additive">Per reading and entry, the additive share of the variance.</param>
    /// <param name="gain">Per reading and entry, what the comparison scale makes of a logarithmic deviation.</param>
    /// <param name="censored">Per reading null, or per entry and level the log likelihood of a bound.</param>
    public BlockTables(ReadingBlock block, double[] residual, double[] additive, double[] gain, double[]?[] censored)
    {
        this.block = block;
        this.residual = residual;
        this.additive = additive;
        this.gain = gain;
        this.censored = censored;
        exact = censored.Count(table => table is null);
        index = new int[censored.Length];
        fraction = new double[censored.Length];
    }

    /// <summary>Sets the modelled values of all readings by their logarithms at strength 1.</summary>
    public void SetShape(ReadOnlySpan<double> logResponse)
    {
        for (var i = 0; i < index.Length; i++)
        {
            var u = (logResponse[i] - ReadingBlock.FirstLog) / ReadingBlock.StepLog;
            var k = Math.Floor(u);
            index[i] = (int)Math.Max(k, -100000);
            fraction[i] = u - k;
        }
    }

    /// <summary>Log likelihood summed over noise levels for modelled values, or for no source when null.</summary>
    /// <param name="logModel">Natural logarithm of the ppm a source brings to each reading.</param>
    /// <param name="extraLogVariance">Added variance of the modelled values' logarithms.</param>
    public double LogLikelihood(double[]? logModel, double extraLogVariance = 0)
    {
        if (logModel is null) Array.Fill(index, -100000);
        else SetShape(logModel);
        return LogAt(0, extraLogVariance);
    }

    /// <summary>Log likelihood summed over noise levels of gas that comes in from the aisle: beside the patches its share strays along the
    /// front, as a second Ornstein-Uhlenbeck process of greater length.</summary>
    /// <param name="logModel">Natural logarithm of the ppm outside at each reading.</param>
    /// <param name="extraLogVariance">Added variance of the modelled values' logarithms.</param>
    public double LogOfAisle(ReadOnlySpan<double> logModel, double extraLogVariance)
    {
        SetShape(logModel);
        var log = double.NegativeInfinity;
        foreach (var deviation in Spread.StrayDeviations)
        {
            var stray = Vector128.Create(deviation * deviation);
            log = NormalLaw.LogAdd(log, Mixed(
                AislePair(Patch.GetLower(), Turbulence.GetLower(), stray, 0, extraLogVariance), AislePair(Patch.GetUpper(), Turbulence.GetUpper(), stray, 2, extraLogVariance)));
        }

        return log - Math.Log(Spread.StrayDeviations.Length);
    }

    private Vector128<double> AislePair(
        Vector128<double> patchVariance, Vector128<double> turbulence, Vector128<double> strayVariance, int level, double extraLogVariance)
    {
        var one = Vector128<double>.One;
        var (patchMean, strayMean, sum) = (Vector128<double>.Zero, Vector128<double>.Zero, Vector128<double>.Zero);
        var (patch, both, stray) = (patchVariance, Vector128<double>.Zero, strayVariance);
        for (var i = 0; i < index.Length; i++)
        {
            var (keep, strayKeep) = (block.Keep[i], block.StrayKeep[i]);
            patchMean *= keep;
            strayMean *= strayKeep;
            patch = patchVariance + ((patch - patchVariance) * (keep * keep));
            both *= keep * strayKeep;
            stray = strayVariance + ((stray - strayVariance) * (strayKeep * strayKeep));
            var (k, t) = (index[i], fraction[i]);
            if (k < 0) (k, t) = (0, 0);
            else if (k > E - 2) (k, t) = (E - 2, 1);
            if (censored[i] is { } table)
            {
                if (index[i] < 0)
                {
                    sum += Vector128.Create(table.AsSpan(level, 2));
                    continue;
                }

                var (log, move, less) = BoundOfStray.Take(table, level, k + t, strayMean, stray);
                sum += log;
                patchMean += both / stray * move;
                strayMean += move;
                patch -= both * both * less;
                both -= both * stray * less;
                stray -= stray * stray * less;
                continue;
            }

            var at = (i * E) + k;
            var r = residual[at] + (t * (residual[at + 1] - residual[at]));
            var a = additive[at] + (t * (additive[at + 1] - additive[at]));
            var g = gain[at] + (t * (gain[at + 1] - gain[at]));
            var (patchPull, strayPull) = ((patch + both) * g, (both + stray) * g);
            var total = Vector128.Create(a + (g * g * (block.LogVariance[i] + extraLogVariance))) + (turbulence * (g * g)) + ((patchPull + strayPull) * g);
            var error = Vector128.Create(r) - ((patchMean + strayMean) * g);
            var tail = one + (error * error / (total * Freedom));
            sum -= LogScale(total, tail);
            var step = error / total * Vector128.Min(one, Vector128.Create((Freedom + 1) / Freedom) / tail);
            patchMean += patchPull * step;
            strayMean += strayPull * step;
            patch -= patchPull * patchPull / total;
            both -= patchPull * strayPull / total;
            stray -= strayPull * strayPull / total;
        }

        return sum;
    }

    /// <summary>Log likelihood summed over noise levels with the shape set before.</summary>
    /// <param name="shift">Logarithm of the strength in table steps.</param>
    /// <param name="extraLogVariance">Added variance of the modelled values' logarithms.</param>
    public double LogAt(int shift, double extraLogVariance = 0) =>
        Vector256.IsHardwareAccelerated ? LogSideBySide(shift, extraLogVariance) : LogInPairs(shift, extraLogVariance);

    /// <summary>The noise levels two and two, for processors with vectors of two numbers, as a browser has them.</summary>
    internal double LogInPairs(int shift, double extraLogVariance)
    {
        var (one, freedom, pull) = (Vector128<double>.One, Vector128.Create(Freedom), Vector128.Create((Freedom + 1) / Freedom));
        var (patchA, patchB, turbulenceA, turbulenceB) = (Patch.GetLower(), Patch.GetUpper(), Turbulence.GetLower(), Turbulence.GetUpper());
        var (meanA, meanB, varianceA, varianceB) = (Vector128<double>.Zero, Vector128<double>.Zero, patchA, patchB);
        var (productA, productB, tailsA, tailsB) = (one, one, one, one);
        var (sumA, sumB) = (Vector128<double>.Zero, Vector128<double>.Zero);
        for (var i = 0; i < index.Length; i++)
        {
            var keep = Vector128.Create(block.Keep[i]);
            meanA *= keep;
            meanB *= keep;
            keep *= keep;
            varianceA = patchA + ((varianceA - patchA) * keep);
            varianceB = patchB + ((varianceB - patchB) * keep);
            var k = index[i] + shift;
            var t = fraction[i];
            if (k < 0) (k, t) = (0, 0);
            else if (k > E - 2) (k, t) = (E - 2, 1);
            if (censored[i] is { } table)
            {
                ref var low = ref table[k * Levels];
                ref var high = ref table[(k + 1) * Levels];
                var share = Vector128.Create(t);
                var (lowA, lowB) = (Vector128.LoadUnsafe(ref low), Vector128.LoadUnsafe(ref Unsafe.Add(ref low, 2)));
                sumA += lowA + ((Vector128.LoadUnsafe(ref high) - lowA) * share);
                sumB += lowB + ((Vector128.LoadUnsafe(ref Unsafe.Add(ref high, 2)) - lowB) * share);
                continue;
            }

            var at = (i * E) + k;
            var g = gain[at] + (t * (gain[at + 1] - gain[at]));
            var (slope, square) = (Vector128.Create(g), Vector128.Create(g * g));
            var additiveHere = Vector128.Create(additive[at] + (t * (additive[at + 1] - additive[at])) + (g * g * (block.LogVariance[i] + extraLogVariance)));
            var r = Vector128.Create(residual[at] + (t * (residual[at + 1] - residual[at])));
            // Written out for each pair: a runtime that interprets pays for every call and every reference to a local.
            var totalA = additiveHere + (square * (turbulenceA + varianceA));
            var totalB = additiveHere + (square * (turbulenceB + varianceB));
            var (errorA, errorB) = (r - (slope * meanA), r - (slope * meanB));
            var (tailA, tailB) = (one + (errorA * errorA / (totalA * freedom)), one + (errorB * errorB / (totalB * freedom)));
            productA *= totalA;
            productB *= totalB;
            tailsA *= tailA;
            tailsB *= tailB;
            var (shareA, shareB) = (varianceA * slope / totalA, varianceB * slope / totalB);
            meanA += shareA * errorA * Vector128.Min(one, pull / tailA);
            meanB += shareB * errorB * Vector128.Min(one, pull / tailB);
            varianceA -= shareA * slope * varianceA;
            varianceB -= shareB * slope * varianceB;
            if ((i & 15) != 15) continue;
            (sumA, sumB) = (sumA - LogScale(productA, tailsA), sumB - LogScale(productB, tailsB));
            (productA, productB, tailsA, tailsB) = (one, one, one, one);
        }

        (sumA, sumB) = (sumA - LogScale(productA, tailsA), sumB - LogScale(productB, tailsB));
        return Mixed(sumA, sumB);
    }

    // Over the noise levels, by the block's weight.
    private double Mixed(Vector128<double> sumA, Vector128<double> sumB)
    {
        sumA *= block.Weight;
        sumB *= block.Weight;
        var best = Math.Max(Math.Max(sumA[0], sumA[1]), Math.Max(sumB[0], sumB[1]));
        return best + Math.Log((Weight[0] * Math.Exp(sumA[0] - best)) + (Weight[1] * Math.Exp(sumA[1] - best))
            + (Weight[2] * Math.Exp(sumB[0] - best)) + (Weight[3] * Math.Exp(sumB[1] - best)));
    }

    private static Vector128<double> LogScale(Vector128<double> product, Vector128<double> tails) => Vector128.Create(
        (0.5 * Math.Log(product[0])) + ((Freedom + 1) / 2 * Math.Log(tails[0])), (0.5 * Math.Log(product[1])) + ((Freedom + 1) / 2 * Math.Log(tails[1])));

    /// <summary>All noise levels side by side.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal double LogSideBySide(int shift, double extraLogVariance)
    {
        var (mean, variance, totals, tails) = (Vector256<double>.Zero, Patch, Vector256<double>.One, Vector256<double>.One);
        var (sum, one, freedom, pull) = (Vector256<double>.Zero, Vector256<double>.One, Vector256.Create(Freedom), Vector256.Create(Freedom + 1));
        for (var i = 0; i < index.Length; i++)
        {
            // Each reading waits for the one before: fused steps and two divisions that don't wait for each other keep the wait short.
            var keep = Vector256.Create(block.Keep[i]);
            mean *= keep;
            keep *= keep;
            variance = Vector256.FusedMultiplyAdd(variance, keep, Patch * (one - keep));
            var k = index[i] + shift;
            var t = fraction[i];
            if (k < 0) (k, t) = (0, 0);
            else if (k > E - 2) (k, t) = (E - 2, 1);
            if (censored[i] is { } table)
            {
                var low = Vector256.Create(table.AsSpan(k * Levels, Levels));
                var high = Vector256.Create(table.AsSpan((k + 1) * Levels, Levels));
                sum += low + ((high - low) * Vector256.Create(t));
                continue;
            }

            var at = (i * E) + k;
            var r = residual[at] + (t * (residual[at + 1] - residual[at]));
            var a = additive[at] + (t * (additive[at + 1] - additive[at]));
            var g = gain[at] + (t * (gain[at + 1] - gain[at]));
            var (slope, square) = (Vector256.Create(g), Vector256.Create(g * g));
            var apart = Vector256.FusedMultiplyAdd(square, Turbulence, Vector256.Create(a + (g * g * (block.LogVariance[i] + extraLogVariance))));
            var total = Vector256.FusedMultiplyAdd(square, variance, apart);
            var error = Vector256.FusedMultiplyAdd(-slope, mean, Vector256.Create(r));
            // Student's law: log(1 + e²/(5 v)) = log(5 v + e²) - log(v) - log 5.
            var spread = total * freedom;
            var tail = Vector256.FusedMultiplyAdd(error, error, spread);
            totals *= total;
            tails *= tail;
            var course = variance * slope;
            var inverse = one / total;
            // A reading far out is held for a gust and moves the patch little.
            mean = Vector256.FusedMultiplyAdd(course * error, Vector256.Min(inverse, pull / tail), mean);
            variance = Vector256.FusedMultiplyAdd(-(course * course), inverse, variance);
            if ((i & 15) != 15) continue;
            sum += LogScale(totals, tails);
            (totals, tails) = (one, one);
        }

        sum += LogScale(totals, tails) + Vector256.Create(exact * (Freedom + 1) / 2 * Math.Log(Freedom));
        if (block.Weight < 1) return Mixed(sum.GetLower(), sum.GetUpper());
        var best = Math.Max(Math.Max(sum[0], sum[1]), Math.Max(sum[2], sum[3]));
        return best + Math.Log(Vector256.Sum(Weight * Vector256.Exp(sum - Vector256.Create(best))));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static Vector256<double> LogScale(Vector256<double> totals, Vector256<double> tails) =>
        (Vector256.Create(Freedom / 2) * Vector256.Log(totals)) - (Vector256.Create((Freedom + 1) / 2) * Vector256.Log(tails));
}
