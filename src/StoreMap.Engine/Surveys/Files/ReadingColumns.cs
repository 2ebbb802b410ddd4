using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>The columns of a readings CSV, found by our names or by a mapping.</summary>
internal sealed class ReadingColumns
{
    /// <summary>All names of ours, in the order of the documentation.</summary>
    public static readonly string[] Names =
    [
        "time", "ppm", "point", "fixture", "at", "from-left", "side", "x", "y", "height", "spot", "air", "cooling", "cover", "door", "since",
        "gas", "instrument", "event", "note",
    ];

    private static readonly string[] PlaceNames = ["point", "fixture", "x", "y"];
    private readonly int[] index;

    private ReadingColumns(int[] index, bool meansPlace) => (this.index, MeansPlace) = (index, meansPlace);

    /// <summary>True when the file or the mapping names at least one place column, found or not.</summary>
    public bool MeansPlace { get; }

    public static ReadingColumns Of(
        CsvTable table, IReadOnlyDictionary<string, string> mapping, IReadOnlyList<string> required, SurveyProblems problems)
    {
        var index = new int[Names.Length];
        for (var i = 0; i < Names.Length; i++)
        {
            var ours = Names[i];
            var theirs = mapping.FirstOrDefault(m => string.Equals(m.Key, ours, StringComparison.OrdinalIgnoreCase)).Value;
            index[i] = table.IndexOf(theirs ?? ours);
            if (index[i] >= 0) continue;
            if (table.IndexOf(ours) is >= 0 and var own)
            {
                // One mapping may serve several files, of which some have our own names.
                problems.Warn(null, theirs, null, "column-own", $"The column mapped to {ours} is not in the file; its own column {ours} was read.");
                index[i] = own;
                continue;
            }

            if (theirs is not null)
            {
                Missing(problems, table, theirs, $"The column mapped to {ours} is not in the file.");
            }
            else if (required.Contains(ours))
            {
                Missing(problems, table, ours, $"The column {ours} is missing. If it has another name, give it this one; the command line also takes --columns {ours}=name.");
            }
        }

        var meansPlace = PlaceNames.Any(n => table.IndexOf(n) >= 0 || mapping.Keys.Contains(n, StringComparer.OrdinalIgnoreCase));
        var columns = new ReadingColumns(index, meansPlace);
        Pair("x", "y");
        Pair("y", "x");
        Pair("at", "fixture");
        Pair("from-left", "fixture");
        for (var c = 0; c < table.Header.Count; c++)
        {
            if (Array.IndexOf(index, c) < 0)
            {
                problems.Warn(null, table.Header[c], null, "column-unused", "This column is not known and was not read.");
            }
        }

        return columns;

        void Pair(string one, string other)
        {
            if (columns.Has(one) && !columns.Has(other) && !mapping.Keys.Contains(other, StringComparer.OrdinalIgnoreCase))
            {
                Missing(problems, table, other, $"The column {other} is missing; {one} says nothing without it.");
            }
        }
    }

    public bool Has(string name) => IndexOf(name) >= 0;

    public int IndexOf(string name) => index[Array.IndexOf(Names, name)];

    /// <summary>A cell by our name; null when the column is absent or the cell empty.</summary>
    public string? Cell(CsvRow row, string name) =>
        IndexOf(name) is >= 0 and var i && row.Cells[i].Length > 0 ? row.Cells[i] : null;

    private static void Missing(SurveyProblems problems, CsvTable table, string column, string message) =>
        problems.Error("row 1", column, null, "column-missing", message + " The file has: " + string.Join(", ", table.Header) + ".");
}
