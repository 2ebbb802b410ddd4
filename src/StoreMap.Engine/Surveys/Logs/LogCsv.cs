using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>A log on a clock of its own.</summary>
/// <param name="Seconds">Sample times (N), ascending: as written, or since <paramref name="Midnight"/> for ISO times.</param>
/// <param name="Ppm">Numbers shown (N).</param>
/// <param name="Midnight">The first midnight of a log with ISO times; null for plain seconds.</param>
public sealed record SecondsLog(double[] Seconds, double[] Ppm, DateTimeOffset? Midnight);

/// <summary>Reads continuous logs: <c>time,ppm[,gas][,instrument]</c>.</summary>
public static class LogCsv
{
    private static readonly string[] Required = ["time", "ppm"];

    /// <summary>Reads the log of a visit.</summary>
    /// <param name="stream">The CSV.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="plan">The plan, for the store's local time.</param>
    /// <param name="options">Column names and the monitor; its kind is taken as logging.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them are carried.</exception>
    public static ContinuousLog Read(Stream stream, string? file, Plan plan, SurveyReadOptions? options = null)
    {
        options = (options ?? new SurveyReadOptions()) with { Kind = InstrumentKind.LoggingPpm };
        var problems = new SurveyProblems(file);
        var parse = CsvParse.Open(stream, file, options.Columns, Required, problems, out var table);
        var clock = ReadingMessages.ClockOf(plan, problems);
        var drafts = new List<ReadingDraft>(table.Rows.Count);
        foreach (var row in table.Rows)
        {
            var element = SurveyProblems.Row(row.Number);
            var time = parse.Time(row, element, clock);
            var ppm = parse.Ppm(row, element);
            if (time is null || ppm is null) continue;
            drafts.Add(new ReadingDraft(element, new Reading
            {
                Time = time.Value, Ppm = 0, Place = new ReadingPlace { At = default }, Gas = parse.Gas(row, element),
                Instrument = parse.Text(row, "instrument"),
            }, ppm.Value));
        }

        if (drafts.Count == 0) problems.Error(null, null, null, "reading-none", "The file has no readings.");
        Single(drafts, d => d.Reading.Instrument, "instrument", "A log is of one monitor. Give each monitor's log by itself.", problems);
        Single(drafts, d => d.Reading.Gas, "gas", "A log is of one setting. Give the stretches of each refrigerant by themselves.", problems);
        problems.ThrowIfErrors();
        var instruments = Monitors.Of(drafts, options);
        var readings = ReadingFinisher.Finish(drafts, instruments, problems);
        return new ContinuousLog(
            [.. readings.Select(r => new LogSample(r.Time, r.Bound == ReadingBound.AtLeast ? r.Ppm : r.Shown ?? r.Ppm, BoundOf(r)))],
            instruments.First(i => i.Id == (readings[0].Instrument ?? instruments[0].Id)), readings[0].Gas, problems.Warnings());
    }

    /// <summary>Reads a log on a clock of its own, in seconds: for puff tests, which have no store.</summary>
    /// <param name="stream">The CSV; its time column holds plain seconds, or ISO 8601 times.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="options">Column names.</param>
    /// <returns>The log.</returns>
    /// <exception cref="RefusedInputException">It has errors; all of them are carried.</exception>
    public static SecondsLog ReadSeconds(Stream stream, string? file, SurveyReadOptions? options = null)
    {
        var problems = new SurveyProblems(file);
        var parse = CsvParse.Open(stream, file, options?.Columns ?? new SurveyReadOptions().Columns, Required, problems, out var table);
        var clock = StoreClock.Of("UTC", out _);
        var samples = new List<(double Seconds, double Ppm)>();
        DateTimeOffset? midnight = null;
        foreach (var row in table.Rows)
        {
            var element = SurveyProblems.Row(row.Number);
            var ppm = parse.Ppm(row, element);
            if (ppm is { Bound: not ReadingBound.Exact } or { Number: null })
            {
                problems.Error(element, "ppm", parse.Text(row, "ppm"), "reading-ppm", "A puff test needs plain numbers, below the top of the range.");
            }

            if (parse.Seconds(row, element, clock, ref midnight) is { } seconds && ppm?.Number is { } number) samples.Add((seconds, number));
        }

        problems.ThrowIfErrors();
        (double Seconds, double Ppm)[] sorted = [.. samples.OrderBy(s => s.Seconds)];
        return new SecondsLog([.. sorted.Select(s => s.Seconds)], [.. sorted.Select(s => s.Ppm)], midnight);
    }

    private static ReadingBound BoundOf(Reading reading) =>
        reading.Bound == ReadingBound.Below && reading.Shown is not null ? ReadingBound.Exact : reading.Bound;

    private static void Single(List<ReadingDraft> drafts, Func<ReadingDraft, string?> value, string field, string message, SurveyProblems problems)
    {
        var values = drafts.Select(value).Distinct().ToArray();
        if (values.Length > 1) problems.Error(null, field, string.Join(", ", values.Select(v => v ?? "(none)").Take(3)), "log-" + field, message);
    }
}
