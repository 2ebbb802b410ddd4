using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Reads a readings CSV: one row a reading, with its place.</summary>
internal static class ReadingsCsv
{
    private static readonly string[] Required = ["time", "ppm"];

    /// <summary>Reads the file.</summary>
    /// <exception cref="RefusedInputException">Anything in it makes an answer wrong; every such problem at once.</exception>
    public static SurveyReadResult Read(
        Stream stream, string? file, Plan plan, IReadOnlyList<ProbePoint> points, SurveyReadOptions options)
    {
        var problems = new SurveyProblems(file);
        var parse = CsvParse.Open(stream, file, options.Columns, Required, problems, out var table);
        if (!parse.MeansPlace)
        {
            problems.Error("row 1", null, null, "reading-place-columns",
                "The file has no place: no column point, no fixture and at, no x and y. It is a continuous log and needs marks "
                + "(time, point or fixture,at or x,y, event) to be put in place.");
            problems.ThrowIfErrors();
        }

        var clock = ReadingMessages.ClockOf(plan, problems);
        var places = new PlaceFinder(plan, points, plan.Units);
        var drafts = new List<ReadingDraft>(table.Rows.Count);
        var zeroed = new List<(string Element, ZeroEvent Event)>();
        foreach (var row in table.Rows)
        {
            if (parse.Text(row, "event") is { } word) ReadEvent(row, word, parse, clock, zeroed);
            else if (ReadRow(row, parse, clock, places) is { } draft) drafts.Add(draft);
        }

        if (drafts.Count == 0 && !problems.HasErrors)
        {
            problems.Error(null, null, null, "reading-none", "The file has no readings.");
        }

        problems.ThrowIfErrors();
        var instruments = Monitors.Of(drafts, options);
        foreach (var (element, zero) in zeroed.Where(z => z.Event.Instrument is { } id && instruments.All(i => i.Id != id)))
        {
            problems.Error(element, "instrument", zero.Instrument, "reading-instrument", "No reading names this monitor. Write its name as the readings do.");
        }

        problems.ThrowIfErrors();
        var readings = ReadingFinisher.Finish(drafts, instruments, problems);
        var survey = new Survey
        {
            Store = plan.Id, Start = readings[0].Time, Instruments = instruments, Readings = readings, Zeroed = [.. zeroed.Select(z => z.Event).OrderBy(z => z.Time)],
        };
        return new SurveyReadResult(survey, problems.Warnings());
    }

    private static void ReadEvent(CsvRow row, string word, CsvParse parse, StoreClock clock, List<(string Element, ZeroEvent Event)> zeroed)
    {
        var element = SurveyProblems.Row(row.Number);
        if (!word.Equals("zero", StringComparison.OrdinalIgnoreCase))
        {
            parse.Problems.Error(element, "event", word, "reading-event",
                "This word is not known among readings. Allowed: zero, where the monitor was zeroed, or nothing. A walk's marks go into a file of their own.");
        }
        else if (parse.Time(row, element, clock) is { } time)
        {
            zeroed.Add((element, new ZeroEvent(time, parse.Text(row, "instrument"))));
        }
    }

    private static ReadingDraft? ReadRow(CsvRow row, CsvParse parse, StoreClock clock, PlaceFinder places)
    {
        var element = SurveyProblems.Row(row.Number);
        var time = parse.Time(row, element, clock);
        var ppm = parse.Ppm(row, element);
        var place = parse.Place(row, element, places.Lengths) is { } text ? places.Find(element, text, parse.Problems) : null;
        var reading = new Reading
        {
            Time = time ?? default, Ppm = 0, Place = place ?? Nowhere,
            Gas = parse.Gas(row, element), Instrument = parse.Text(row, "instrument"), Note = parse.Text(row, "note"),
        };
        reading = places.WithPointsState(StateWords.Apply(reading, parse.State(row, element), element, parse.Problems));
        return time is null || ppm is null || place is null ? null : new ReadingDraft(element, reading, ppm.Value);
    }

    // Stands in for a place that was refused, so that the rest of the row is still checked.
    private static readonly ReadingPlace Nowhere = new() { At = default };
}
