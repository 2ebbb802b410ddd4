namespace StoreMap.Fields;

/// <summary>How well a method predicts sample points it hasn't seen.</summary>
/// <param name="Estimates">One per sample point, in their order: its estimate from the others. Variance NaN for a method without one.</param>
/// <param name="MeanError">Mean of observed less estimated.</param>
/// <param name="RootMeanSquare">Root of the mean squared error.</param>
/// <param name="MeanZ">Mean of error / deviation, ideally 0; NaN without deviations.</param>
/// <param name="DeviationZ">Standard deviation of error / deviation, ideally 1; NaN without deviations.</param>
public sealed record CrossValidation(
    IReadOnlyList<KrigingEstimate> Estimates, double MeanError, double RootMeanSquare, double MeanZ, double DeviationZ)
{
    /// <summary>Leaves out one sample point at a time.</summary>
    /// <param name="samples">At least two.</param>
    /// <param name="method">Makes an estimate at the place of its second argument from the sample points of its first.</param>
    public static CrossValidation LeaveOneOut(
        IReadOnlyList<SamplePoint> samples, Func<IReadOnlyList<SamplePoint>, SamplePoint, KrigingEstimate> method)
    {
        SamplePoint.Check(samples);
        ArgumentOutOfRangeException.ThrowIfLessThan(samples.Count, 2, nameof(samples));
        var estimates = new KrigingEstimate[samples.Count];
        for (var i = 0; i < estimates.Length; i++)
        {
            var others = samples.Where((_, j) => j != i).ToArray();
            estimates[i] = method(others, samples[i]);
        }

        return Score(samples, estimates);
    }

    /// <summary>Scores ordinary kriging with a fixed variogram.</summary>
    /// <param name="samples">At least two, no two at the same place.</param>
    /// <param name="model">The variogram.</param>
    /// <param name="nearest">Number of neighbours; null for all.</param>
    public static CrossValidation OfKriging(IReadOnlyList<SamplePoint> samples, VariogramModel model, int? nearest = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(samples.Count, 2, nameof(samples));
        return nearest is null || nearest >= samples.Count
            ? Score(samples, new OrdinaryKriging(samples, model).LeaveOneOut())
            : LeaveOneOut(samples, (others, left) => new OrdinaryKriging(others, model, nearest).Estimate(left.At));
    }

    /// <summary>Scores inverse distance weighting.</summary>
    /// <param name="samples">At least two.</param>
    /// <param name="power">Power of the distance.</param>
    /// <param name="nearest">Number of neighbours; null for all.</param>
    public static CrossValidation OfInverseDistance(IReadOnlyList<SamplePoint> samples, double power = 2, int? nearest = null) =>
        LeaveOneOut(samples, (others, left) => new KrigingEstimate(InverseDistance.Estimate(others, left.At, power, nearest), double.NaN));

    internal static CrossValidation Score(IReadOnlyList<SamplePoint> samples, KrigingEstimate[] estimates)
    {
        var errors = samples.Select((s, i) => s.Value - estimates[i].Value).ToArray();
        var z = errors.Select((e, i) => e / Math.Sqrt(estimates[i].Variance)).ToArray();
        var meanZ = z.Average();
        return new CrossValidation(
            estimates, errors.Average(), Math.Sqrt(errors.Average(e => e * e)), meanZ,
            Math.Sqrt(z.Sum(v => (v - meanZ) * (v - meanZ)) / (z.Length - 1)));
    }
}
