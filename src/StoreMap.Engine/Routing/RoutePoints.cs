using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Reads the user's own points: a CSV with the columns <c>id,x,y</c>, coordinates in the layout's unit.</summary>
public static class RoutePoints
{
    private static readonly string[] Names = ["id", "x", "y"];

    /// <summary>Reads a list of points.</summary>
    /// <param name="stream">The CSV, in any of the usual dialects.</param>
    /// <param name="file">Its name for messages.</param>
    /// <param name="plan">The store, for its unit and outline.</param>
    /// <returns>Points with the ids of the file, in its order.</returns>
    /// <exception cref="RefusedInputException">All errors at once, by row.</exception>
    public static IReadOnlyList<ProbePoint> Read(Stream stream, string? file, Plan plan)
    {
        var table = CsvTable.Read(stream, file);
        var problems = new List<Problem>();
        var columns = Names.ToDictionary(c => c, table.IndexOf);
        foreach (var (name, at) in columns)
        {
            if (at < 0) problems.Add(Error(null, name, null, "column-missing", $"There is no column {name}. A list of points has the columns id,x,y."));
        }

        if (problems.Count > 0) throw new RefusedInputException(problems);
        var numbers = CsvNumbers.Of(table, [columns["x"], columns["y"]], problems);
        var points = new List<ProbePoint>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var row in table.Rows)
        {
            var element = FormattableString.Invariant($"row {row.Number}");
            var id = row.Cells[columns["id"]].Trim();
            if (id.Length is 0 or > 32) problems.Add(Error(element, "id", id, "id-form", "An id has 1 to 32 characters."));
            else if (!seen.Add(id)) problems.Add(Error(element, "id", id, "id-unique", $"The id {id} is given twice. Each point needs its own."));
            var x = Coordinate(row, "x");
            var y = Coordinate(row, "y");
            var at = new PlanPoint(x, y);
            points.Add(new ProbePoint { Id = id, Pass = ProbePass.Own, At = at, Stand = at });

            double Coordinate(CsvRow r, string column)
            {
                var text = r.Cells[columns[column]].Trim();
                if (numbers.Parse(text) is { } value && Math.Abs(value) < 1e9) return value * plan.Units.InMetres();
                problems.Add(Error(element, column, text, "number", $"{column} must be a number in {plan.Units.Symbol()}."));
                return 0;
            }
        }

        if (points.Count == 0) problems.Add(Error(null, null, null, "no-points", "The list holds no point."));
        return problems.Count > 0 ? throw new RefusedInputException(problems) : points;

        Problem Error(string? element, string? field, string? value, string rule, string message) =>
            new(Severity.Error, file, element, field, value is { Length: > 80 } ? value[..80] : value, rule, message);
    }
}
