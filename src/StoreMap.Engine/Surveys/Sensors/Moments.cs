namespace StoreMap.Surveys;

/// <summary>Readings so close that the sensor can't tell them apart, taken as one: their mean weighted by 1/variance.</summary>
/// <param name="Of">Which moment each reading belongs to (N).</param>
/// <param name="Seconds">Time of each moment's first reading (M).</param>
/// <param name="Ppm">Weighted means (M).</param>
/// <param name="Variances">Their variances (M).</param>
internal sealed record Moments(int[] Of, double[] Seconds, double[] Ppm, double[] Variances)
{
    private const double Shortest = 1e-3;

    // In a two-hundredth of its time constant a sensor moves by 0.5 %; undoing that blows rounding up, not information.
    private const double ShareOfTimeConstant = 1.0 / 200;

    /// <summary>Seconds within which readings are one moment.</summary>
    public static double Least(SensorModel model) => Math.Max(Shortest, model.TimeConstant * ShareOfTimeConstant);

    /// <summary>Parts readings into moments.</summary>
    public static Moments Part(IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, IReadOnlyList<double> variances, double least)
    {
        var of = new int[seconds.Count];
        List<double> begins = [], weights = [], sums = [];
        for (var k = 0; k < of.Length; k++)
        {
            if (begins.Count == 0 || seconds[k] - begins[^1] >= least)
            {
                begins.Add(seconds[k]);
                weights.Add(0);
                sums.Add(0);
            }

            of[k] = begins.Count - 1;
            weights[^1] += 1 / variances[k];
            sums[^1] += ppm[k] / variances[k];
        }

        return new Moments(of, [.. begins], [.. sums.Zip(weights, (s, w) => s / w)], [.. weights.Select(w => 1 / w)]);
    }
}
