using System.Globalization;

namespace StoreMap.Surveys;

/// <summary>Checks a puff test's log before it is fitted.</summary>
internal static class PuffLog
{
    private const int LeastSamples = 10;
    private const int MostPuffs = 20;
    private const int MostSamples = 20_000;

    public static void Check(IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, double[] starts, double resolutionPpm)
    {
        var problems = new List<Problem>();
        if (ppm.Count < LeastSamples)
        {
            problems.Add(Error(null, Text(ppm.Count), "puff-log", $"A puff test needs {LeastSamples} or more readings."));
        }
        else if (ppm.Count > MostSamples)
        {
            problems.Add(Error(null, Text(ppm.Count), "puff-log", $"A puff test has at most {MostSamples} readings. Cut the log to the test."));
        }

        if (starts.Length is 0 or > MostPuffs)
        {
            problems.Add(Error("starts", Text(starts.Length), "puff-starts", $"Give 1 to {MostPuffs} moments at which gas was held to the tip."));
        }

        if (problems.Count == 0)
        {
            for (var j = 0; j < starts.Length; j++)
            {
                var end = j + 1 < starts.Length ? starts[j + 1] : double.PositiveInfinity;
                CheckPuff(seconds, ppm, starts[j], end, resolutionPpm, problems);
            }
        }

        if (problems.Count > 0) throw new RefusedInputException(problems);
    }

    /// <summary>Lengths of the puffs to begin a fit with: every puff ended, and the last one lasting.</summary>
    public static IEnumerable<double[]> LengthGuesses(IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, double[] starts)
    {
        var lengths = new double[starts.Length];
        for (var j = 0; j < starts.Length; j++)
        {
            lengths[j] = HalfWidth(seconds, ppm, starts[j], j + 1 < starts.Length ? starts[j + 1] : double.PositiveInfinity);
        }

        yield return lengths;
        yield return [.. lengths[..^1], double.PositiveInfinity];
    }

    // For how long the log stands above the middle between the level at the start and the highest after it.
    private static double HalfWidth(IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, double start, double end)
    {
        double low = 0, high = double.NegativeInfinity;
        for (var i = 0; i < ppm.Count; i++)
        {
            if (seconds[i] <= start) low = ppm[i];
            else if (seconds[i] < end) high = Math.Max(high, ppm[i]);
        }

        double? from = null, to = null;
        for (var i = 0; i < ppm.Count; i++)
        {
            if (seconds[i] <= start || seconds[i] >= end || ppm[i] < 0.5 * (low + high)) continue;
            from ??= seconds[i];
            to = seconds[i];
        }

        return Math.Max(1, (to ?? start) - (from ?? start));
    }

    private static void CheckPuff(
        IReadOnlyList<double> seconds, IReadOnlyList<double> ppm, double start, double end, double resolutionPpm, List<Problem> problems)
    {
        if (start < seconds[0] || start >= seconds[^1])
        {
            problems.Add(Error("starts", Text(start), "puff-start-outside",
                $"The start lies outside the log, which runs from {Text(seconds[0])} to {Text(seconds[^1])} s."));
            return;
        }

        double before = 0, after = 0;
        var quiet = 0;
        for (var i = 0; i < ppm.Count; i++)
        {
            if (seconds[i] <= start)
            {
                before = ppm[i];
                quiet++;
            }
            else if (seconds[i] < end)
            {
                after = Math.Max(after, ppm[i]);
            }
        }

        if (quiet == 0 || after - before < 5 * Math.Max(resolutionPpm, 0.1))
        {
            problems.Add(Error("starts", Text(start), "puff-unseen",
                "The log shows no gas after this start: at least five display steps are needed. Check the start's clock, or use more gas."));
        }
    }

    private static Problem Error(string? field, string? value, string rule, string message) =>
        new(Severity.Error, null, null, field, value, rule, message);

    private static string Text(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);
}
