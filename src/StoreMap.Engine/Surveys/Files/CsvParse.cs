using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Parses the cells of one readings, log or marks CSV and says what is wrong with them.</summary>
internal sealed class CsvParse
{
    private static readonly string[] NumberColumns = ["ppm", "at", "x", "y", "since"];
    private readonly ReadingColumns columns;

    public CsvParse(CsvTable table, ReadingColumns columns, SurveyProblems problems)
    {
        this.columns = columns;
        Problems = problems;
        var errors = new List<Problem>();
        Numbers = CsvNumbers.Of(table, [.. NumberColumns.Select(columns.IndexOf)], errors);
        problems.Add(errors);
    }

    /// <summary>Opens a CSV of logs or marks.</summary>
    /// <exception cref="RefusedInputException">A required column is missing, or the file is no table.</exception>
    public static CsvParse Open(
        Stream stream, string? file, IReadOnlyDictionary<string, string> mapping, IReadOnlyList<string> required, SurveyProblems problems,
        out CsvTable table)
    {
        var shape = new List<Problem>();
        table = CsvTable.Read(stream, file, shape);
        problems.Add(table.Warnings);
        var columns = ReadingColumns.Of(table, mapping, required, problems);
        var parse = new CsvParse(table, columns, problems) { MeansPlace = columns.MeansPlace };
        var stop = problems.HasErrors;
        problems.Add(shape);
        if (stop) problems.ThrowIfErrors();
        return parse;
    }

    public SurveyProblems Problems { get; }

    /// <summary>True when the file means to give places.</summary>
    public bool MeansPlace { get; private init; }

    public CsvNumbers Numbers { get; }

    public string? Text(CsvRow row, string name) => columns.Cell(row, name);

    /// <summary>The row's time; null after an error.</summary>
    public DateTimeOffset? Time(CsvRow row, string element, StoreClock clock)
    {
        var text = columns.Cell(row, "time");
        if (text is null || clock.Read(text) is not var (time, note))
        {
            ReadingMessages.Time(element, "time", text, Problems);
            return null;
        }

        ReadingMessages.Clock(note, element, text, Problems);
        return time;
    }

    /// <summary>The row's time in seconds, plain or since the first midnight of an ISO log; null after an error.</summary>
    public double? Seconds(CsvRow row, string element, StoreClock clock, ref DateTimeOffset? midnight)
    {
        var text = columns.Cell(row, "time");
        if (text is not null && Numbers.Parse(text) is { } plain) return plain;
        if (Time(row, element, clock) is not { } time) return null;
        midnight ??= new DateTimeOffset(time.Date, time.Offset);
        return (time - midnight.Value).TotalSeconds;
    }

    /// <summary>The row's number; null when there is none or after an error.</summary>
    public PpmText? Ppm(CsvRow row, string element)
    {
        var text = columns.Cell(row, "ppm");
        if (text is null)
        {
            Problems.Count(element, "ppm", null, "reading-missing", "The row has no number; it was left out.");
            return null;
        }

        var ppm = PpmText.Parse(text, Numbers);
        if (ppm is null) ReadingMessages.Ppm(element, text, Problems);
        return ppm;
    }

    /// <summary>The row's place as written; null after an error. Distances along a case may be typed with their unit, as <c>14' 6"</c>.</summary>
    public PlaceText? Place(CsvRow row, string element, LengthUnit lengths)
    {
        var readable = true;
        var side = columns.Cell(row, "side")?.ToLowerInvariant();
        if (side is not (null or "front" or "back"))
        {
            Problems.Error(element, "side", side, "reading-side", "This word is not known. Allowed: front, back.");
            readable = false;
        }

        var text = new PlaceText(
            columns.Cell(row, "point"), columns.Cell(row, "fixture"), Length("at"), Length("from-left"), side == "back", Number("x"), Number("y"));
        return readable ? text : null;

        double? Length(string name) =>
            columns.Cell(row, name) is { } typed && Numbers.Parse(typed) is null && LengthEntry.Parse(typed, lengths) is { } length ? length : Number(name);

        double? Number(string name)
        {
            var number = this.Number(row, element, name);
            readable &= number is not null || columns.Cell(row, name) is null;
            return number;
        }
    }

    public StateText State(CsvRow row, string element)
    {
        var since = Number(row, element, "since");
        if (since < 0)
        {
            Problems.Error(element, "since", columns.Cell(row, "since"), "reading-since", "Seconds since the fans stopped are at least 0.");
        }

        return new StateText(
            columns.Cell(row, "height"), columns.Cell(row, "spot"), columns.Cell(row, "air"), columns.Cell(row, "cooling"),
            columns.Cell(row, "cover"), columns.Cell(row, "door"), since);
    }

    /// <summary>The refrigerant the monitor was set to; null when not said.</summary>
    public string? Gas(CsvRow row, string element) =>
        columns.Cell(row, "gas") is { } text ? GasWords.Read(text, element, Problems) : null;

    private double? Number(CsvRow row, string element, string name)
    {
        var text = columns.Cell(row, name);
        if (text is null) return null;
        var number = Numbers.Parse(text);
        if (number is null || Math.Abs(number.Value) > 1e6)
        {
            Problems.Error(element, name, text, "reading-number", "This is not a number between -1,000,000 and 1,000,000.");
            return null;
        }

        return number;
    }
}
