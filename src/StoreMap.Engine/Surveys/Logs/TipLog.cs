namespace StoreMap.Surveys;

/// <summary>A level over a stretch of time at the tip.</summary>
/// <param name="Ppm">Mean, ppm.</param>
/// <param name="DeviationPpm">Standard deviation of the mean, ppm.</param>
/// <param name="OverRange">True when the monitor was over its range meanwhile.</param>
internal readonly record struct TipLevel(double Ppm, double DeviationPpm, bool OverRange);

/// <summary>The concentration at the tip through a visit, delay and lag undone.</summary>
internal sealed class TipLog
{
    private readonly ContinuousLog log;
    private readonly CorrectedLog corrected;
    private readonly double[] shown;

    private TipLog(ContinuousLog log, CorrectedLog corrected, double[] shown) => (this.log, this.corrected, this.shown) = (log, corrected, shown);

    public static TipLog Of(ContinuousLog log, LogSettings settings)
    {
        var start = log.Samples[0].Time;
        double[] seconds = [.. log.Samples.Select(s => (s.Time - start).TotalSeconds)];
        double[] ppm = [.. log.Samples.Select(s => s.Bound == ReadingBound.Below ? s.Ppm / 2 : s.Ppm)];
        // Rounding to a step q adds q^2 / 12; a number below the limit lies anywhere between 0 and it.
        double[] variances = [.. log.Samples.Select(s => (settings.SensorNoisePpm * settings.SensorNoisePpm)
            + (s.Bound == ReadingBound.Below ? s.Ppm * s.Ppm / 12 : log.Instrument.ResolutionPpm * log.Instrument.ResolutionPpm / 12))];
        return new TipLog(log, LogCorrection.Correct(seconds, ppm, variances, SensorModel.Of(log.Instrument)), seconds);
    }

    /// <summary>The clock of the log, seconds since its first sample.</summary>
    public double SecondsAt(DateTimeOffset time) => (time - log.Samples[0].Time).TotalSeconds;

    /// <summary>The time of a moment on that clock.</summary>
    public DateTimeOffset TimeAt(double seconds) => log.Samples[0].Time.AddSeconds(seconds);

    /// <summary>The level at the tip over a stretch; null outside the log.</summary>
    public TipLevel? Level(double from, double to)
    {
        var delay = log.Instrument.DelaySeconds;
        if (to < from || from + delay > shown[^1] || to + delay < shown[0]) return null;
        var (first, last) = (corrected.IndexAt(from), corrected.IndexAt(to));
        var (sum, variance, count, over) = (0.0, 0.0, last - first + 1, false);
        for (var k = first; k <= last; k++)
        {
            sum += corrected.Ppm[k];
            variance += corrected.DeviationPpm[k] * corrected.DeviationPpm[k];
            over |= log.Samples[k].Bound == ReadingBound.AtLeast;
        }

        var mean = sum / count;
        var scatter = Enumerable.Range(first, count).Sum(k => (corrected.Ppm[k] - mean) * (corrected.Ppm[k] - mean)) / count;
        // Neighbouring intervals share their noise over about a T90.
        var apart = Math.Max(1, (to - from) / Math.Max(log.Instrument.T90Seconds, 0.1));
        return new TipLevel(mean, Math.Sqrt(((variance / count) + scatter) / apart), over);
    }

    /// <summary>A reading of a level at a place.</summary>
    public Reading Reading(Reading place, TipLevel level, string? note)
    {
        var below = !level.OverRange && level.Ppm < log.Instrument.DetectionPpm;
        return place with
        {
            Ppm = level.OverRange ? log.Instrument.RangePpm : below ? log.Instrument.DetectionPpm : level.Ppm,
            Shown = below ? Math.Round(level.Ppm, 3) : null,
            Bound = level.OverRange ? ReadingBound.AtLeast : below ? ReadingBound.Below : ReadingBound.Exact,
            DeviationPpm = level.OverRange ? null : level.DeviationPpm,
            Gas = place.Gas ?? log.Gas,
            Instrument = log.Instrument.Id,
            Note = place.Note ?? note,
        };
    }
}
