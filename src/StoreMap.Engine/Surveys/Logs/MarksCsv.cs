using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Reads the marks of a continuous log: <c>time,point | fixture,at | x,y[,event]</c>, and spot, height and air state from there on.</summary>
public static class MarksCsv
{
    private static readonly string[] Required = ["time"];

    /// <summary>Reads marks.</summary>
    /// <param name="stream">The CSV.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="points">Its probe points; may be empty.</param>
    /// <param name="options">Column names.</param>
    /// <returns>Marks in time order, and warnings.</returns>
    /// <exception cref="RefusedInputException">It has errors; all of them are carried.</exception>
    public static (IReadOnlyList<LogMark> Marks, IReadOnlyList<Problem> Warnings) Read(
        Stream stream, string? file, Plan plan, IReadOnlyList<ProbePoint> points, SurveyReadOptions? options = null)
    {
        var problems = new SurveyProblems(file);
        var parse = CsvParse.Open(stream, file, options?.Columns ?? new SurveyReadOptions().Columns, Required, problems, out var table);
        var clock = ReadingMessages.ClockOf(plan, problems);
        var places = new PlaceFinder(plan, points, plan.Units);
        var marks = new List<LogMark>();
        foreach (var row in table.Rows)
        {
            if (Row(row, parse, clock, places) is { } mark) marks.Add(mark);
        }

        if (marks.Count == 0 && !problems.HasErrors) problems.Error(null, null, null, "marks-none", "The file has no marks.");
        var sorted = marks.OrderBy(m => m.Time).ToList();
        if (!sorted.SequenceEqual(marks)) problems.Warn(null, "time", null, "reading-order", "The marks were put in time order.");
        MarkOrder.Check(sorted, problems);
        problems.ThrowIfErrors();
        return (sorted, problems.Warnings());
    }

    private static LogMark? Row(CsvRow row, CsvParse parse, StoreClock clock, PlaceFinder places)
    {
        var element = SurveyProblems.Row(row.Number);
        var word = parse.Text(row, "event");
        var what = word is null ? MarkEvent.At : KebabNames.Parse<MarkEvent>(word.ToLowerInvariant());
        if (what is null)
        {
            parse.Problems.Error(element, "event", word, "mark-event", "This word is not known. Allowed: start, end, pause, resume, zero, or nothing.");
        }

        var time = parse.Time(row, element, clock);
        var text = parse.Place(row, element, places.Lengths);
        var free = what is MarkEvent.Pause or MarkEvent.Resume or MarkEvent.Zero && text is { IsEmpty: true };
        var place = text is null || free ? null : places.Find(element, text.Value, parse.Problems);
        var reading = new Reading
        {
            Time = time ?? default, Ppm = 0, Place = place ?? new ReadingPlace { At = default },
            Gas = parse.Gas(row, element), Note = parse.Text(row, "note"),
        };
        reading = places.WithPointsState(StateWords.Apply(reading, parse.State(row, element), element, parse.Problems));
        return time is null || what is null || (place is null && !free) ? null : new LogMark(element, what.Value, reading, place is not null);
    }
}
