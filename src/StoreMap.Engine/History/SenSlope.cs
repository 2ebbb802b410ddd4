namespace StoreMap.History;

/// <summary>The Theil-Sen line: its slope is the median of the slopes of all pairs, its intercept median value − slope · median
/// time. Few wild values don't move it. Sources: Theil 1950; Sen 1968; intercept after Conover 1980.</summary>
/// <param name="Slope">Per unit of time; NaN when no two values differ in time.</param>
/// <param name="Intercept">Value at time 0; NaN when the slope is.</param>
public readonly record struct SenSlope(double Slope, double Intercept)
{
    /// <summary>Fits a line.</summary>
    /// <param name="times">Any unit, any order.</param>
    /// <param name="values">One per time; NaN values are left out.</param>
    /// <exception cref="ArgumentException">The lengths differ.</exception>
    public static SenSlope Of(IReadOnlyList<double> times, IReadOnlyList<double> values)
    {
        if (times.Count != values.Count) throw new ArgumentException($"There are {times.Count} times but {values.Count} values.", nameof(values));
        var used = Enumerable.Range(0, times.Count).Where(i => !double.IsNaN(values[i])).ToArray();
        List<double> slopes = [];
        for (var a = 0; a < used.Length; a++)
        {
            for (var b = a + 1; b < used.Length; b++)
            {
                int i = used[a], j = used[b];
                if (times[i] != times[j]) slopes.Add((values[j] - values[i]) / (times[j] - times[i]));
            }
        }

        if (slopes.Count == 0) return new SenSlope(double.NaN, double.NaN);
        var slope = Median(slopes);
        return new SenSlope(slope, Median([.. used.Select(i => values[i])]) - (slope * Median([.. used.Select(i => times[i])])));
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        var middle = values.Count / 2;
        return values.Count % 2 == 1 ? values[middle] : (values[middle - 1] + values[middle]) / 2;
    }
}
