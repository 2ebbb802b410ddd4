using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>A CSV of named columns for analysts: points, series, tables. Every error with its row and column.</summary>
internal sealed class NamedColumns
{
    private readonly CsvTable table;
    private readonly Dictionary<string, int> index;
    private readonly CsvNumbers numbers;

    private NamedColumns(CsvTable table, Dictionary<string, int> index, CsvNumbers numbers, SurveyProblems problems) =>
        (this.table, this.index, this.numbers, Problems) = (table, index, numbers, problems);

    public SurveyProblems Problems { get; }

    public IReadOnlyList<CsvRow> Rows => table.Rows;

    /// <summary>Opens a file.</summary>
    /// <param name="stream">The CSV.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="names">Our column names.</param>
    /// <param name="required">Those that must be there.</param>
    /// <param name="mapping">Theirs by ours; null for our own names.</param>
    /// <exception cref="RefusedInputException">It is no table, or a required column is missing.</exception>
    public static NamedColumns Open(
        Stream stream, string? file, IReadOnlyList<string> names, IReadOnlyList<string> required, IReadOnlyDictionary<string, string>? mapping)
    {
        var problems = new SurveyProblems(file);
        var shape = new List<Problem>();
        var table = CsvTable.Read(stream, file, shape);
        problems.Add(table.Warnings);
        var index = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var name in names)
        {
            var theirs = mapping?.FirstOrDefault(m => string.Equals(m.Key, name, StringComparison.OrdinalIgnoreCase)).Value;
            var at = table.IndexOf(theirs ?? name);
            if (at >= 0) index[name] = at;
            else if (theirs is not null || required.Contains(name))
            {
                problems.Error("row 1", theirs ?? name, null, "column-missing",
                    $"The column {theirs ?? name} is missing. If it has another name, map it: --columns {name}=name. The file has: {string.Join(", ", table.Header)}.");
            }
        }

        problems.ThrowIfErrors();
        problems.Add(shape);
        var errors = new List<Problem>();
        var parse = CsvNumbers.Of(table, [.. index.Values], errors);
        problems.Add(errors);
        return new NamedColumns(table, index, parse, problems);
    }

    public bool Has(string name) => index.ContainsKey(name);

    /// <summary>A cell; null when the column is absent or the cell empty.</summary>
    public string? Text(CsvRow row, string name) => index.TryGetValue(name, out var at) && row.Cells[at].Length > 0 ? row.Cells[at] : null;

    /// <summary>A number; null after an error.</summary>
    public double? Number(CsvRow row, string name)
    {
        var text = Text(row, name);
        if (text is not null && Plain(text) is { } value) return value;
        Problems.Error(SurveyProblems.Row(row.Number), name, text, "number", text is null ? "The number is missing." : "This is not a number.");
        return null;
    }

    /// <summary>A finite number; null when the text is none.</summary>
    public double? Plain(string text) => numbers.Parse(text);
}
