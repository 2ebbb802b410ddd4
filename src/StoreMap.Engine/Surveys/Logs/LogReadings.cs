namespace StoreMap.Surveys;

/// <summary>Makes readings of the recovered log: one for each stretch of a walk, one for each stay.</summary>
internal sealed class LogReadings(
    ContinuousLog log, double[] seconds, CorrectedLog recovered, double delay, double stepMetres)
{
    private const double MostSettleSeconds = 5;

    /// <summary>One reading for each stretch of a walk that the log covers, in time order.</summary>
    public IEnumerable<Reading> Of(Walk walk)
    {
        var (from, to) = walk.Span;
        var members = new List<int>();
        var bin = -1.0;
        for (var k = IndexFrom(from + delay); k < seconds.Length && Middle(k) - delay <= to; k++)
        {
            var own = Math.Floor(walk.DistanceAt(Middle(k) - delay) / stepMetres);
            if (own != bin && members.Count > 0)
            {
                yield return OfStretch(walk, members);
                members.Clear();
            }

            bin = own;
            members.Add(k);
        }

        if (members.Count > 0) yield return OfStretch(walk, members);
    }

    /// <summary>The reading of a stay: the mean over its middle, where hand and sensor have settled; null when the log does not cover it.</summary>
    public Reading? Of(Stay stay)
    {
        var settle = Math.Min(MostSettleSeconds, (stay.To - stay.From) / 4);
        var members = Within(stay.From + settle, stay.To - settle);
        if (members.Count == 0) members = Within(stay.From, stay.To);
        if (members.Count == 0) return null;
        var mean = Mean(members, recovered.Ppm);
        double variance = 0, scatter = 0;
        foreach (var k in members)
        {
            variance += recovered.DeviationPpm[k] * recovered.DeviationPpm[k] / members.Count;
            scatter += (recovered.Ppm[k] - mean) * (recovered.Ppm[k] - mean) / members.Count;
        }

        // Values share their noise over about a T90.
        var apart = Math.Max(1, (seconds[members[^1]] - seconds[members[0]]) / Math.Max(log.Instrument.T90Seconds, 0.1));
        return Make(stay.Mark.Reading, stay.Mark.Reading.Place, members, Math.Sqrt((variance + scatter) / apart));
    }

    private List<int> Within(double from, double to)
    {
        var members = new List<int>();
        for (var k = IndexFrom(from + delay); k < seconds.Length && Middle(k) - delay <= to; k++) members.Add(k);
        return members;
    }

    private Reading OfStretch(Walk walk, List<int> members)
    {
        var distance = members.Average(k => walk.DistanceAt(Middle(k) - delay));
        // The values of one stretch hang together, so their mean is no better known than one of them.
        return Make(walk.Start.Reading, walk.PlaceAt(distance), members, Mean(members, recovered.DeviationPpm));
    }

    private Reading Make(Reading state, ReadingPlace place, List<int> members, double deviation)
    {
        var instrument = log.Instrument;
        var shown = members.Average(k => log.Samples[k].Ppm);
        var ppm = Mean(members, recovered.Ppm);
        var over = members.Exists(k => log.Samples[k].Bound == ReadingBound.AtLeast);
        var bound = over ? ReadingBound.AtLeast : ppm < instrument.DetectionPpm ? ReadingBound.Below : ReadingBound.Exact;
        return state with
        {
            Time = log.Samples[0].Time.AddSeconds(members.Average(Middle)), Place = place, Bound = bound, Shown = Math.Round(shown, 3),
            Ppm = over ? instrument.RangePpm : bound == ReadingBound.Below ? instrument.DetectionPpm : ppm,
            DeviationPpm = bound == ReadingBound.Exact ? deviation : null,
            Gas = state.Gas ?? log.Gas, Instrument = null,
        };
    }

    private double Middle(int k) => k == 0 ? seconds[0] : 0.5 * (seconds[k - 1] + seconds[k]);

    private int IndexFrom(double at)
    {
        var k = Array.BinarySearch(seconds, at);
        k = Math.Max(0, k >= 0 ? k : ~k);
        while (k < seconds.Length && Middle(k) < at) k++;
        return k;
    }

    private static double Mean(List<int> members, double[] values)
    {
        var sum = 0.0;
        foreach (var k in members) sum += values[k];
        return sum / members.Count;
    }
}
