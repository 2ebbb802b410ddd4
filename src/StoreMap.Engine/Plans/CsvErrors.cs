using System.Globalization;

namespace StoreMap.Plans;

/// <summary>Collects what is wrong with the shape of a CSV; of each rule the first rows only, so that a hostile file stays readable.</summary>
internal sealed class CsvErrors(string? file)
{
    private const int MostPerRule = 20;
    private readonly Dictionary<string, int> perRule = [];

    public List<Problem> List { get; } = [];

    /// <summary>True when reading on makes no sense.</summary>
    public bool Fatal { get; private set; }

    public void CheckHeader(string[] header, int row)
    {
        var before = List.Count;
        for (var i = 0; i < header.Length; i++)
        {
            if (header[i].Length == 0)
            {
                Add(row, null, null, "csv-header", $"Column {Text(i + 1)} has no name. Give every column a name in the header row.");
            }

            for (var j = 0; j < i; j++)
            {
                if (header[i].Length > 0 && string.Equals(header[i], header[j], StringComparison.OrdinalIgnoreCase))
                {
                    Add(row, header[i], null, "csv-header", "This column stands twice in the header row. Remove or rename one.");
                }
            }
        }

        Fatal |= List.Count > before;
    }

    public void NoHeader()
    {
        Fatal = true;
        Add(null, null, null, "csv-header", "The file is empty. The first row must name the columns.");
    }

    public void RowLength(int row, int cells, int columns) =>
        Add(row, null, Text(cells), "csv-row-length",
            $"The row has {Text(cells)} cells, the header has {Text(columns)}. Quote cells that hold the separator; leave no cell out.");

    public void StrayQuote(int row) =>
        Add(row, null, "\"", "csv-quote",
            "A cell begins with a quotation mark that is not closed at its end. Put the whole cell in quotation marks and double the marks inside it, or let it begin with something else.");

    public void TooManyColumns(int row, int columns, int most)
    {
        Fatal = true;
        Add(row, null, Text(columns), "csv-columns", $"The row has more than {Text(most)} columns.");
    }

    public void TooManyRows(int most)
    {
        Fatal = true;
        Add(null, null, null, "csv-rows", $"The file has more than {Text(most)} rows. Split it, one visit to a file.");
    }

    private void Add(int? row, string? field, string? value, string rule, string message)
    {
        var count = perRule[rule] = perRule.GetValueOrDefault(rule) + 1;
        if (count > MostPerRule) return;
        if (count == MostPerRule) message += " There may be more rows like this; only the first are listed.";
        List.Add(new Problem(
            Severity.Error, file, row is { } r ? $"row {Text(r)}" : null, field, value, rule, message));
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
