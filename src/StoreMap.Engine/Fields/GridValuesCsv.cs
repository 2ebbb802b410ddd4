using System.Globalization;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>Values on the nodes of a regular grid.</summary>
/// <param name="Nodes">The nodes; <see cref="FieldGrid.CellMetres"/> is their spacing, in the file's unit of length.</param>
/// <param name="Values">One per node, row by row from below; NaN where there is none.</param>
public sealed record GridValues(FieldGrid Nodes, double[] Values);

/// <summary>Reads a grid: a bare matrix, row j at y = j · step and column i at x = i · step; or a list <c>x,y,value</c> (or <c>ppm</c>, as
/// <c>map --grid</c> writes it) whose places lie on a regular grid. Empty cells and NaN have no value.</summary>
public static class GridValuesCsv
{
    private const int MostBytes = 64 << 20;
    private const int MostNodes = 4_000_000;
    private const int MostErrors = 20;
    private static readonly string[] Names = ["x", "y", "value"];

    /// <summary>Reads a grid.</summary>
    /// <param name="stream">The CSV.</param>
    /// <param name="file">Its name for messages; may be null.</param>
    /// <param name="step">Spacing of a matrix's nodes, greater than 0; null for 1. A list tells its own.</param>
    /// <exception cref="RefusedInputException">It has errors; all of them are carried.</exception>
    public static GridValues Read(Stream stream, string? file, double? step = null)
    {
        using var whole = CsvText.ReadAll(stream, file, MostBytes);
        var warnings = new List<Problem>();
        var text = CsvText.Decode(whole, file, MostBytes, warnings);
        var (first, separator) = CsvText.Dialect(text);
        var lines = text.Split('\n');
        var head = lines.Skip(first - 1).Select(l => l.Trim()).FirstOrDefault(l => l.Length > 0) ?? "";
        var cells = head.Split(separator).Select(c => c.Trim().Trim('"').ToLowerInvariant()).ToArray();
        if (!cells.Contains("x") || !cells.Contains("y")) return Matrix(lines, first, separator, file, step ?? 1);
        whole.Position = 0;
        return List(whole, file, cells.Contains("value") ? null : new Dictionary<string, string> { ["value"] = "ppm" });
    }

    private static GridValues Matrix(string[] lines, int first, char separator, string? file, double step)
    {
        var errors = new List<Problem>();
        var rows = new List<double[]>();
        for (var k = first - 1; k < lines.Length; k++)
        {
            var line = lines[k].Trim('\r', ' ', '\uFEFF');
            if (line.Length == 0) continue;
            var row = line.Split(separator);
            if (rows.Count > 0 && row.Length != rows[0].Length)
            {
                Error(k, null, $"The row has {Text(row.Length)} numbers, the first has {Text(rows[0].Length)}.", "grid-row-length");
                continue;
            }

            var values = new double[row.Length];
            for (var c = 0; c < row.Length; c++)
            {
                if (Number(row[c], separator) is { } value) values[c] = value;
                else Error(k, row[c], $"Column {Text(c + 1)} is no number. Leave it empty where there is no value.", "number");
            }

            rows.Add(values);
            if ((long)rows.Count * row.Length > MostNodes) throw TooBig(file);
        }

        if (errors.Count == 0 && (rows.Count < 2 || rows[0].Length < 2)) Error(0, null, "A grid needs two or more rows and columns.", "grid-size");
        if (errors.Count > 0) throw new RefusedInputException(errors);
        return new GridValues(new FieldGrid(new PlanPoint(0, 0), step, rows[0].Length, rows.Count), [.. rows.SelectMany(r => r)]);

        void Error(int line, string? value, string message, string rule)
        {
            if (errors.Count < MostErrors) errors.Add(new Problem(Severity.Error, file, SurveyProblems.Row(line + 1), null, value, rule, message));
        }
    }

    private static GridValues List(Stream stream, string? file, Dictionary<string, string>? mapping)
    {
        var table = NamedColumns.Open(stream, file, Names, Names, mapping);
        var points = new List<(double X, double Y, double Value, int Row)>();
        foreach (var row in table.Rows)
        {
            var (x, y) = (table.Number(row, "x"), table.Number(row, "y"));
            var none = table.Text(row, "value") is not { } text || text.Equals("NaN", StringComparison.OrdinalIgnoreCase);
            var value = none ? double.NaN : table.Number(row, "value");
            if (x is { } px && y is { } py && value is { } v) points.Add((px, py, v, row.Number));
        }

        table.Problems.ThrowIfErrors();
        double[] xs = [.. points.Select(p => p.X).Distinct().Order()], ys = [.. points.Select(p => p.Y).Distinct().Order()];
        var step = Math.Min(LeastGap(xs), LeastGap(ys));
        if (!double.IsFinite(step)) table.Problems.Error(null, null, null, "grid-size", "A grid needs two or more rows and columns.");
        table.Problems.ThrowIfErrors();
        var (columns, rows) = ((long)Math.Round((xs[^1] - xs[0]) / step) + 1, (long)Math.Round((ys[^1] - ys[0]) / step) + 1);
        if (columns * rows > MostNodes) throw TooBig(file);
        var nodes = new FieldGrid(new PlanPoint(xs[0], ys[0]), step, (int)columns, (int)rows);
        var values = new double[nodes.Count];
        Array.Fill(values, double.NaN);
        foreach (var (x, y, value, row) in points)
        {
            var (i, j) = ((x - xs[0]) / step, (y - ys[0]) / step);
            // Coordinates come rounded to some decimals; a hundredth of the spacing is far from the next node.
            if (Math.Abs(i - Math.Round(i)) > 0.01 || Math.Abs(j - Math.Round(j)) > 0.01)
            {
                table.Problems.Error(SurveyProblems.Row(row), "x,y", FormattableString.Invariant($"{x}, {y}"), "grid-regular",
                    FormattableString.Invariant($"This place is not on the regular grid of spacing {step} that the others lie on."));
                continue;
            }

            values[((int)Math.Round(j) * nodes.Columns) + (int)Math.Round(i)] = value;
        }

        table.Problems.ThrowIfErrors();
        return new GridValues(nodes, values);
    }

    private static double LeastGap(double[] sorted)
    {
        var least = double.PositiveInfinity;
        var whole = sorted.Length > 0 ? Math.Max(Math.Abs(sorted[0]), Math.Abs(sorted[^1])) : 0;
        for (var i = 1; i < sorted.Length; i++)
        {
            var gap = sorted[i] - sorted[i - 1];
            if (gap > 1e-9 * whole) least = Math.Min(least, gap);
        }

        return least;
    }

    private static double? Number(string cell, char separator)
    {
        cell = cell.Trim().Trim('"');
        if (cell.Length == 0 || cell.Equals("NaN", StringComparison.OrdinalIgnoreCase)) return double.NaN;
        if (separator != ',') cell = cell.Replace(',', '.');
        return double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;
    }

    private static RefusedInputException TooBig(string? file) => new([new Problem(Severity.Error, file, null, null, null, "grid-size",
        $"The grid has more than {Text(MostNodes)} nodes; that many are not read. Take a coarser grid.")]);

    private static string Text(int number) => number.ToString("N0", CultureInfo.InvariantCulture);
}
