using System.Globalization;

namespace StoreMap.Plans;

/// <summary>Reads the rows of a case list, each fault with its row and column.</summary>
internal static class CaseRowReader
{
    private static readonly string[] Columns = ["tag", "kind", "lengths", "circuit", "system", "refrigerant", "product", "doors", "lineUp", "name"];

    /// <summary>Reads all rows; those that can't be used are reported and left out.</summary>
    public static IReadOnlyList<CaseRow> Read(CsvTable table, LengthUnit unit, ProblemList problems)
    {
        foreach (var column in new[] { "tag", "lengths" })
        {
            if (table.IndexOf(column) < 0)
            {
                problems.Error(null, column, string.Join(table.Separator, table.Header), "required",
                    $"The column {column} is missing. A case list has the columns {string.Join(", ", Columns)}; tag and lengths are required.");
            }
        }

        if (problems.HasErrors) return [];
        if (table.Rows.Count == 0) problems.Error(null, null, null, "no-fixture", "The case list has no rows; write one fixture a row.");
        var rows = table.Rows.Select(r => Row(table, r, unit, problems)).OfType<CaseRow>().ToList();
        foreach (var twice in rows.GroupBy(r => r.Tag, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1))
        {
            foreach (var row in twice.Skip(1)) problems.Error(row.Element, "tag", row.Tag, "tag-unique", $"The tag {row.Tag} stands in {twice.First().Element} already; every fixture needs its own.");
        }

        return rows;
    }

    private static CaseRow? Row(CsvTable table, CsvRow row, LengthUnit unit, ProblemList problems)
    {
        var cells = new Cells(table, row, problems);
        var tag = cells["tag"];
        if (tag.Length == 0) problems.Error(cells.Element, "tag", null, "required", "The fixture has no tag; write what the store calls it, such as 27A.");
        foreach (var column in Columns)
        {
            if (cells[column].Length > LayoutLimits.Text) problems.Error(cells.Element, column, cells[column], "text-length", $"The cell has {cells[column].Length} characters; at most {LayoutLimits.Text} are allowed.");
        }

        var doors = Doors(cells);
        var kind = Kind(cells, doors);
        var lengths = kind is { } k ? Lengths(cells, k, table.Separator != ',', unit) : null;
        if (tag.Length == 0 || kind is null || lengths is null) return null;
        return new CaseRow
        {
            Number = row.Number, Tag = tag, Kind = kind.Value, Lengths = lengths, Doors = doors, Circuits = Circuits(cells, lengths.Count, kind.Value),
            System = cells.Maybe("system"), Refrigerant = Refrigerant(cells), LineUp = cells.Maybe("lineUp"), Product = cells.Maybe("product"), Name = cells.Maybe("name"),
        };
    }

    // A list without kinds is common: sides such as 10x14 make a walk-in, doors a door case, all else an open case.
    private static FixtureKind? Kind(Cells cells, int? doors)
    {
        var word = cells["kind"].ToLowerInvariant().Replace(' ', '-').Replace('_', '-');
        if (word.Length == 0)
        {
            var guess = doors > 0 ? FixtureKind.DoorCase : CaseLengths.LooksLikeRoom(cells["lengths"]) ? FixtureKind.WalkIn : FixtureKind.OpenCase;
            cells.Problems.Warn(cells.Element, "kind", null, "no-kind", $"The fixture has no kind; {guess.Kebab()} is taken. Known are: {KebabNames.All<FixtureKind>()}.");
            return guess;
        }

        if (word == "walkin") word = "walk-in";
        var kind = KebabNames.Parse<FixtureKind>(word) ?? KebabNames.Parse<FixtureKind>(word + "-case");
        if (kind is null) cells.Problems.Error(cells.Element, "kind", cells["kind"], "word", $"{cells["kind"]} is no kind of fixture; allowed are: {KebabNames.All<FixtureKind>()}.");
        return kind;
    }

    private static IReadOnlyList<double>? Lengths(Cells cells, FixtureKind kind, bool decimalComma, LengthUnit unit)
    {
        var cell = cells["lengths"];
        var walkIn = kind == FixtureKind.WalkIn;
        var example = walkIn ? "width and depth such as 10x14" : "section lengths such as 12-12-8";
        if (cell.Length == 0)
        {
            cells.Problems.Error(cells.Element, "lengths", null, "required", $"The fixture has no lengths; write its {example}.");
            return null;
        }

        if (CaseLengths.LooksLikeDate(cell))
        {
            cells.Problems.Error(cells.Element, "lengths", cell, "lengths", $"{cell} looks like a date that a spreadsheet made of the lengths; set the column to text and write its {example}.");
            return null;
        }

        var lengths = walkIn ? CaseLengths.WidthAndDepth(cell, decimalComma) : CaseLengths.Sections(cell, decimalComma);
        if (lengths is null)
        {
            cells.Problems.Error(cells.Element, "lengths", cell, "lengths", $"{cell} can't be read as lengths; write its {example}, in {unit.Symbol()}.");
            return null;
        }

        var (least, most) = walkIn ? (LeastWalkIn, MostWalkIn) : (LayoutLimits.SectionLeast, LayoutLimits.SectionMost);
        foreach (var length in lengths)
        {
            if (length * unit.InMetres() >= least - LayoutLimits.Tiny && length * unit.InMetres() <= most + LayoutLimits.Tiny) continue;
            cells.Problems.Error(cells.Element, "lengths", cell, "number-range",
                $"{Say.Number(length)} {unit.Symbol()} is no believable length here; allowed is {Say.Length(least, unit)} to {Say.Length(most, unit)}. Check the unit of the list.");
            return null;
        }

        if (lengths.Sum() * unit.InMetres() <= LayoutLimits.FixtureMost) return lengths;
        cells.Problems.Error(cells.Element, "lengths", cell, "fixture-size", $"The fixture is longer than {Say.Length(LayoutLimits.FixtureMost, unit)}; write one row for each case.");
        return null;
    }

    private const double LeastWalkIn = 1;
    private const double MostWalkIn = 60;

    private static int? Doors(Cells cells)
    {
        if (cells.Maybe("doors") is not { } cell) return null;
        if (int.TryParse(cell, NumberStyles.None, CultureInfo.InvariantCulture, out var doors) && doors <= 200) return doors;
        cells.Problems.Error(cells.Element, "doors", cell, "number-range", $"{cell} is no number of doors; write a whole number from 0 to 200.");
        return null;
    }

    private static string[] Circuits(Cells cells, int sections, FixtureKind kind)
    {
        var circuits = cells["circuit"].Split('/', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        var most = kind == FixtureKind.WalkIn ? 1 : sections;
        if (circuits.Length > 1 && circuits.Length != most)
        {
            cells.Problems.Error(cells.Element, "circuit", cells["circuit"], "circuit-count", $"There are {circuits.Length} circuits for {most} sections; write one, or one per section with / between them.");
        }

        return circuits;
    }

    private static string? Refrigerant(Cells cells)
    {
        if (cells.Maybe("refrigerant") is not { } cell) return null;
        if (Plans.Refrigerant.Find(cell) is { } known) return known.Name;
        cells.Problems.Warn(cells.Element, "refrigerant", cell, "refrigerant-known", $"{cell} is not in the table of refrigerants, so its limits and strengths can't be told.");
        return cell;
    }

    private sealed class Cells(CsvTable table, CsvRow row, ProblemList problems)
    {
        public ProblemList Problems => problems;

        public string Element => $"row {row.Number}";

        public string this[string column] => table.IndexOf(column) is var i and >= 0 ? row.Cells[i] : "";

        public string? Maybe(string column) => this[column] is { Length: > 0 } cell ? cell : null;
    }
}
