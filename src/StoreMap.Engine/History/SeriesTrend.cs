using System.Globalization;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.History;

/// <summary>The trend of one series.</summary>
/// <param name="Series">Its name; null when the file has only one.</param>
/// <param name="Kendall">The Mann-Kendall test.</param>
/// <param name="Sen">The Theil-Sen line.</param>
/// <param name="Dated">True when times were dates: the slope is per day, the intercept at the first day.</param>
/// <param name="Missing">Rows without a value.</param>
public sealed record SeriesTrend(string? Series, MannKendall Kendall, SenSlope Sen, bool Dated, int Missing)
{
    private static readonly string[] Names = ["series", "t", "value"];

    /// <summary>Reads a mapping of column names, such as <c>t=date,value=ppm</c>.</summary>
    /// <exception cref="RefusedInputException">It is not written so.</exception>
    public static IReadOnlyDictionary<string, string> ParseColumns(string text) => ColumnMapping.Parse(text, Names);

    /// <summary>Reads <c>[series,]t,value</c> and tests each series. Times are numbers or ISO 8601 dates; an empty value or NaN is missing.</summary>
    /// <param name="stream">The CSV.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="columns">Theirs by ours; null for our own names.</param>
    /// <returns>One per series, in the order of the file.</returns>
    /// <exception cref="RefusedInputException">It has errors; all of them are carried.</exception>
    public static IReadOnlyList<SeriesTrend> Read(Stream stream, string? file, IReadOnlyDictionary<string, string>? columns = null)
    {
        var table = NamedColumns.Open(stream, file, Names, ["t", "value"], columns);
        var rows = new List<(string Series, double Time, bool Dated, double Value, int Row)>();
        foreach (var row in table.Rows)
        {
            var time = Time(table, row);
            var missing = table.Text(row, "value") is not { } text || text.Equals("NaN", StringComparison.OrdinalIgnoreCase);
            var value = missing ? double.NaN : table.Number(row, "value");
            if (time is var (at, dated) && value is { } v) rows.Add((table.Text(row, "series") ?? "", at, dated, v, row.Number));
        }

        if (rows.Count == 0 && !table.Problems.HasErrors) table.Problems.Error(null, null, null, "series-none", "The file has no values.");
        var groups = rows.GroupBy(r => r.Series).ToList();
        foreach (var group in groups.Where(g => g.Select(r => r.Dated).Distinct().Count() > 1))
        {
            table.Problems.Error(SurveyProblems.Row(group.First(r => r.Dated).Row), "t", null, "series-time",
                $"The series {group.Key} has dates and plain numbers for times. Use one kind.");
        }

        table.Problems.ThrowIfErrors();
        return [.. groups.Select(g => Of(table.Has("series") ? g.Key : null, [.. g.OrderBy(r => r.Time).Select(r => (r.Time, r.Value))], g.First().Dated))];
    }

    private static SeriesTrend Of(string? name, (double Time, double Value)[] points, bool dated)
    {
        double[] values = [.. points.Select(p => p.Value)];
        var first = dated ? points[0].Time : 0;
        return new SeriesTrend(
            name, MannKendall.Of(values), SenSlope.Of([.. points.Select(p => p.Time - first)], values), dated, values.Count(double.IsNaN));
    }

    private static (double Time, bool Dated)? Time(NamedColumns table, CsvRow row)
    {
        var text = table.Text(row, "t");
        if (text is not null && table.Plain(text) is { } plain) return (plain, false);
        if (text is not null && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var date) && text.Contains('-', StringComparison.Ordinal))
        {
            return ((date - DateTimeOffset.UnixEpoch).TotalDays, true);
        }

        table.Problems.Error(SurveyProblems.Row(row.Number), "t", text, "series-time", "This is no time. Write a number, or a date such as 2026-03-04.");
        return null;
    }
}
