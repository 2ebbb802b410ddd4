using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Reads a monitor's response table: <c>set,actual,factor</c>, true ppm = shown ppm · factor.</summary>
public static class ResponsesCsv
{
    private static readonly string[] Names = ["set", "actual", "factor"];

    /// <summary>Reads the table.</summary>
    /// <param name="stream">The CSV.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them are carried.</exception>
    public static IReadOnlyList<GasResponse> Read(Stream stream, string? file)
    {
        var problems = new SurveyProblems(file);
        var shape = new List<Problem>();
        var table = CsvTable.Read(stream, file, shape);
        problems.Add(shape);
        foreach (var name in Names.Where(n => table.IndexOf(n) < 0))
        {
            problems.Error("row 1", name, null, "column-missing", $"The column {name} is missing. The file has: {string.Join(", ", table.Header)}.");
        }

        problems.ThrowIfErrors();
        int[] at = [.. Names.Select(table.IndexOf)];
        var errors = new List<Problem>();
        var numbers = CsvNumbers.Of(table, [at[2]], errors);
        problems.Add(errors);
        var responses = new List<GasResponse>();
        foreach (var row in table.Rows)
        {
            var element = SurveyProblems.Row(row.Number);
            var (set, actual, factor) = (row.Cells[at[0]], row.Cells[at[1]], numbers.Parse(row.Cells[at[2]]));
            if (set.Length == 0) problems.Error(element, "set", null, "response-gas", "The row does not say what the monitor was set to.");
            if (actual.Length == 0) problems.Error(element, "actual", null, "response-gas", "The row does not say what was in the air.");
            if (factor is not (>= GasResponse.LeastFactor and <= GasResponse.MostFactor))
            {
                problems.Error(element, "factor", row.Cells[at[2]], "response-factor",
                    string.Create(CultureInfo.InvariantCulture, $"The factor must be a number between {GasResponse.LeastFactor} and {GasResponse.MostFactor}: true ppm over shown ppm."));
            }

            set = GasWords.Read(set, element, problems);
            actual = GasWords.Read(actual, element, problems);
            if (responses.Exists(r => r.SetTo == set && r.Actual == actual))
            {
                problems.Error(element, "set", set, "response-twice", $"The table already has a row for {set} reading {actual}. Keep one of them.");
            }

            responses.Add(new GasResponse(set, actual, factor ?? 1));
        }

        problems.ThrowIfErrors();
        return responses;
    }
}
