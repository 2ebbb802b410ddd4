using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;
using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>An estimate and the variance of its error.</summary>
/// <param name="Value">The estimate.</param>
/// <param name="Variance">Variance of a new measurement there about the estimate, nugget included; 0 at a sample point.</param>
public readonly record struct KrigingEstimate(double Value, double Variance);

/// <summary>Ordinary kriging: the unbiased linear estimate of least variance under a variogram, mean unknown. Straight
/// distances: knows no walls. Sources: Isaaks and Srivastava 1989, chapters 12 and 13; conventions of the R package gstat.</summary>
public sealed class OrdinaryKriging
{
    private readonly IReadOnlyList<SamplePoint> samples;
    private readonly VariogramModel model;
    private readonly int neighbours;
    private readonly LU<double>? global;

    /// <summary>Prepares the equations.</summary>
    /// <param name="samples">At least one; no two at the same place.</param>
    /// <param name="model">The variogram.</param>
    /// <param name="nearest">Use only so many nearest sample points for each estimate, at least 1; null for all.</param>
    /// <exception cref="ArgumentException">There is no sample point, one is not finite, or two lie at the same place.</exception>
    public OrdinaryKriging(IReadOnlyList<SamplePoint> samples, VariogramModel model, int? nearest = null)
    {
        SamplePoint.Check(samples);
        ArgumentOutOfRangeException.ThrowIfLessThan(nearest ?? 1, 1, nameof(nearest));
        CheckApart(samples);
        this.samples = samples;
        this.model = model;
        neighbours = Math.Min(nearest ?? samples.Count, samples.Count);
        if (neighbours == samples.Count) global = Equations(All()).LU();
    }

    /// <summary>Estimates the value at a place.</summary>
    /// <param name="at">Metres.</param>
    public KrigingEstimate Estimate(PlanPoint at)
    {
        var (used, right, solution) = Solve(at, [at]);
        return Result(used, right, solution, model.Sill);
    }

    /// <summary>Estimates the mean over a rectangle, by a regular pattern of points at the centres of equal parts.</summary>
    /// <param name="centre">Centre of the rectangle, metres; the nearest sample points are those nearest to it.</param>
    /// <param name="width">Width along x, metres, greater than 0.</param>
    /// <param name="height">Height along y, metres, greater than 0.</param>
    /// <param name="parts">Parts along each side, at least 1.</param>
    public KrigingEstimate EstimateBlock(PlanPoint centre, double width, double height, int parts = 4)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(width);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(height);
        ArgumentOutOfRangeException.ThrowIfLessThan(parts, 1);
        var points = new PlanPoint[parts * parts];
        for (var k = 0; k < points.Length; k++)
        {
            points[k] = centre + new PlanPoint(
                width * ((((k % parts) + 0.5) / parts) - 0.5), height * ((((k / parts) + 0.5) / parts) - 0.5));
        }

        // A mean over an area has no nugget of its own: it averages out.
        var within = points.Sum(p => points.Sum(q => model.Covariance(p.DistanceTo(q)) - (p == q ? model.Nugget : 0)));
        var (used, right, solution) = Solve(centre, points);
        return Result(used, right, solution, within / points.Length / points.Length);
    }

    /// <summary>The weights of an estimate, one per sample point in their order, summing to 1; 0 for those not used.</summary>
    /// <param name="at">Metres.</param>
    public double[] Weights(PlanPoint at)
    {
        var (used, _, solution) = Solve(at, [at]);
        var weights = new double[samples.Count];
        for (var k = 0; k < used.Length; k++) weights[used[k]] = solution[k];
        return weights;
    }

    /// <summary>Estimates each sample point from all others of a global neighbourhood at once: with the inverse B of the
    /// kriging matrix the error is (B z)i / Bii and its variance 1 / Bii. Source: Dubrule 1983.</summary>
    internal KrigingEstimate[] LeaveOneOut()
    {
        var inverse = Equations(All()).Inverse();
        var estimates = new KrigingEstimate[samples.Count];
        for (var i = 0; i < estimates.Length; i++)
        {
            var error = 0.0;
            for (var j = 0; j < samples.Count; j++) error += inverse[i, j] * samples[j].Value;
            estimates[i] = new KrigingEstimate(samples[i].Value - (error / inverse[i, i]), 1 / inverse[i, i]);
        }

        return estimates;
    }

    private (int[] Used, Vector<double> Right, Vector<double> Solution) Solve(PlanPoint at, PlanPoint[] support)
    {
        var used = global is null ? SamplePoint.Nearest(samples, at, neighbours) : All();
        var right = Vector<double>.Build.Dense(used.Length + 1);
        for (var k = 0; k < used.Length; k++)
        {
            foreach (var p in support) right[k] += model.Covariance(samples[used[k]].At.DistanceTo(p)) / support.Length;
        }

        right[used.Length] = 1;
        return (used, right, (global ?? Equations(used).LU()).Solve(right));
    }

    private KrigingEstimate Result(int[] used, Vector<double> right, Vector<double> solution, double prior)
    {
        var value = 0.0;
        for (var k = 0; k < used.Length; k++) value += solution[k] * samples[used[k]].Value;
        return new KrigingEstimate(value, Math.Max(0, prior - (solution * right)));
    }

    private Matrix<double> Equations(int[] used)
    {
        var n = used.Length;
        return Matrix<double>.Build.Dense(n + 1, n + 1, (i, j) =>
            i == n && j == n ? 0 : i == n || j == n ? 1 : model.Covariance(samples[used[i]].At.DistanceTo(samples[used[j]].At)));
    }

    private int[] All() => [.. Enumerable.Range(0, samples.Count)];

    private static void CheckApart(IReadOnlyList<SamplePoint> samples)
    {
        var order = Enumerable.Range(0, samples.Count).OrderBy(i => samples[i].At.X).ThenBy(i => samples[i].At.Y).ThenBy(i => i).ToArray();
        for (var k = 1; k < order.Length; k++)
        {
            if (samples[order[k]].At == samples[order[k - 1]].At)
            {
                throw new ArgumentException(
                    $"Sample points {order[k - 1] + 1} and {order[k] + 1} lie at the same place; kriging needs one value a place: average them first.",
                    nameof(samples));
            }
        }
    }
}
