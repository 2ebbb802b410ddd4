using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Puts a continuous log in place: each number goes back by the delay to where the tip was, with the sensor's response undone.
/// Method: docs/readings.md.</summary>
public static class LogAligner
{
    private const double MostLag = 20;
    private const double MostClockOffset = 60;

    /// <summary>Deviation of a line's delay from what is given or usual, seconds: 2 to 10 s cover hand-held monitors (common practice).</summary>
    private const double LineDeviation = 2.5;

    /// <summary>Aligns a log.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="points">Its probe points, for their dwell times; may be empty.</param>
    /// <param name="log">The log.</param>
    /// <param name="marks">Marks in time order, as <see cref="MarksCsv"/> gives them.</param>
    /// <param name="options">Options; null takes the defaults.</param>
    /// <exception cref="RefusedInputException">No number of the log lies on a walk or at a mark.</exception>
    public static AlignedLog Align(
        Plan plan, IReadOnlyList<ProbePoint> points, ContinuousLog log, IReadOnlyList<LogMark> marks, LogAlignOptions? options = null)
    {
        options ??= new LogAlignOptions();
        var warnings = new List<Problem>(log.Warnings);
        var start = log.Samples[0].Time;
        var places = new PlaceFinder(plan, points, plan.Units);
        LogMark[] placed = [.. marks.Where(m => m.Event != MarkEvent.Zero)];
        var path = ProbePath.Of(
            plan, placed, m => (m.Time - start).TotalSeconds + options.ClockOffsetSeconds,
            m => places.DwellAt(m.Reading.Place) ?? options.DwellSeconds);
        double[] seconds = [.. log.Samples.Select(s => (s.Time - start).TotalSeconds)];
        var noise = new MonitorNoise(log.Instrument.DetectionPpm, log.Instrument.ResolutionPpm, 0);
        var recovered = Recover(log, seconds, noise);

        var (least, most) = options.EstimateClock ? (-MostClockOffset, MostLag + MostClockOffset) : (0, MostLag);
        var finder = new LagFinder(recovered, Math.Sqrt(noise.Variance(0)), log.Instrument.DelaySeconds, options.EstimateClock || options.DelayKnown ? null : LineDeviation, least, most);
        var lag = finder.BothWays(path) ?? (options.EstimateClock ? finder.Rises(path) : null);
        var given = log.Instrument.DelaySeconds;
        var delay = lag is not null && (options.EstimateClock || !options.DelayKnown) ? lag.Seconds : given;
        LogMessages.Lag(log.Instrument, lag, options, warnings);

        var readings = new LogReadings(log, seconds, recovered, delay, options.StepMetres);
        var list = path.Walks.SelectMany(readings.Of).ToList();
        foreach (var stay in path.Stays)
        {
            if (readings.Of(stay) is not { } reading)
            {
                warnings.Add(LogMessages.Unlogged(stay));
                continue;
            }

            list.Add(reading);
            if (!stay.Open && stay.To - stay.From < log.Instrument.T90Seconds) warnings.Add(LogMessages.TooShort(stay, log.Instrument));
        }

        if (list.Count == 0) throw new RefusedInputException([LogMessages.Unplaced(), .. warnings]);
        return new AlignedLog(path)
        {
            Survey = new Survey
            {
                Store = plan.Id, LayoutRevision = plan.Revision, Start = start < marks[0].Time ? start : marks[0].Time.ToOffset(start.Offset),
                Instruments = [log.Instrument with { Kind = InstrumentKind.LoggingPpm, DelaySeconds = options.EstimateClock ? given : delay }],
                Readings = [.. list.OrderBy(r => r.Time)],
                Zeroed = [.. marks.Where(m => m.Event == MarkEvent.Zero).Select(m => new ZeroEvent(m.Time.AddSeconds(options.ClockOffsetSeconds), null))],
            },
            Log = log, DelaySeconds = delay, Lag = lag, Warnings = warnings,
            ClockOffsetSeconds = options.EstimateClock && lag is not null ? options.ClockOffsetSeconds + lag.Seconds - given : null,
            Unplaced = seconds.Count(s => path.At(s - delay, s) is null),
        };
    }

    private static CorrectedLog Recover(ContinuousLog log, double[] seconds, MonitorNoise noise)
    {
        var (ppm, variances) = (new double[seconds.Length], new double[seconds.Length]);
        for (var i = 0; i < seconds.Length; i++)
        {
            var sample = log.Samples[i];
            // "Below n" is any value from 0 to n: a rectangular distribution about n/2 (JCGM 100:2008, 4.3.7).
            ppm[i] = sample.Bound == ReadingBound.Below ? sample.Ppm / 2 : sample.Ppm;
            variances[i] = noise.Variance(0) + (sample.Bound == ReadingBound.Below ? sample.Ppm * sample.Ppm / 12 : 0);
        }

        return LogCorrection.Correct(seconds, ppm, variances, new SensorModel(0, log.Instrument.T90Seconds));
    }
}
