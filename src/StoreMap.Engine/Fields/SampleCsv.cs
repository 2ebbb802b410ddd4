using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>A place where a value is asked for.</summary>
/// <param name="Id">Its name; null when the file gives none.</param>
/// <param name="At">The place, in the file's unit.</param>
public readonly record struct NamedPlace(string? Id, PlanPoint At);

/// <summary>Reads points for interpolation: <c>x,y,value</c>, and places <c>x,y</c> with an optional <c>id</c>, in one unit of length.</summary>
public static class SampleCsv
{
    private static readonly string[] Names = ["id", "x", "y", "value"];

    /// <summary>Reads a mapping of column names, such as <c>x=x_m,value=log_zinc</c>.</summary>
    /// <exception cref="RefusedInputException">It is not written so.</exception>
    public static IReadOnlyDictionary<string, string> ParseColumns(string text) => ColumnMapping.Parse(text, Names);

    /// <summary>Reads sample points.</summary>
    /// <param name="stream">The CSV.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="columns">Theirs by ours; null for our own names.</param>
    /// <returns>At least one.</returns>
    /// <exception cref="RefusedInputException">It has errors; all of them are carried.</exception>
    public static IReadOnlyList<SamplePoint> ReadSamples(Stream stream, string? file, IReadOnlyDictionary<string, string>? columns = null)
    {
        var table = NamedColumns.Open(stream, file, Names, ["x", "y", "value"], columns);
        var samples = new List<SamplePoint>(table.Rows.Count);
        foreach (var row in table.Rows)
        {
            var (x, y, value) = (table.Number(row, "x"), table.Number(row, "y"), table.Number(row, "value"));
            if (x is { } px && y is { } py && value is { } v) samples.Add(new SamplePoint(new PlanPoint(px, py), v));
        }

        RefuseNone(samples.Count, table.Problems);
        return samples;
    }

    /// <summary>Reads places.</summary>
    /// <param name="stream">The CSV.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="columns">Theirs by ours; null for our own names.</param>
    /// <returns>At least one.</returns>
    /// <exception cref="RefusedInputException">It has errors; all of them are carried.</exception>
    public static IReadOnlyList<NamedPlace> ReadPlaces(Stream stream, string? file, IReadOnlyDictionary<string, string>? columns = null)
    {
        var table = NamedColumns.Open(stream, file, Names, ["x", "y"], columns is null ? null : Present(columns));
        var places = new List<NamedPlace>(table.Rows.Count);
        foreach (var row in table.Rows)
        {
            var (x, y) = (table.Number(row, "x"), table.Number(row, "y"));
            if (x is { } px && y is { } py) places.Add(new NamedPlace(table.Text(row, "id"), new PlanPoint(px, py)));
        }

        RefuseNone(places.Count, table.Problems);
        return places;
    }

    // One mapping may serve points and places; places have no value.
    private static Dictionary<string, string> Present(IReadOnlyDictionary<string, string> columns) =>
        columns.Where(c => !string.Equals(c.Key, "value", StringComparison.OrdinalIgnoreCase)).ToDictionary(c => c.Key, c => c.Value);

    private static void RefuseNone(int count, SurveyProblems problems)
    {
        if (count == 0 && !problems.HasErrors) problems.Error(null, null, null, "points-none", "The file has no points.");
        problems.ThrowIfErrors();
    }
}
