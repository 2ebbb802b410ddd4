using nietras.SeparatedValues;

namespace StoreMap.Plans;

/// <summary>Largest CSV that is read, so that a hostile file cannot fill the memory.</summary>
/// <param name="Bytes">Bytes of the file.</param>
/// <param name="Rows">Rows after the header.</param>
/// <param name="Columns">Columns.</param>
internal sealed record CsvLimits(int Bytes = 64 << 20, int Rows = 500_000, int Columns = 200);

/// <summary>One row of a CSV.</summary>
/// <param name="Number">Row number as a spreadsheet shows it: the header is row 1 and blank rows count.</param>
/// <param name="Cells">One trimmed text per column of the header.</param>
internal readonly record struct CsvRow(int Number, string[] Cells);

/// <summary>A CSV in its usual dialects, read whole: RFC 4180 with comma, semicolon or tab, byte order marks, UTF-8 or UTF-16,
/// quoted cells over several lines. A mark inside a cell that does not begin with one is taken as it stands. Cells are trimmed; blank rows are skipped.</summary>
internal sealed class CsvTable
{
    private CsvTable(string? file, char separator, string[] header, List<CsvRow> rows, List<Problem> warnings) =>
        (File, Separator, Header, Rows, Warnings) = (file, separator, header, rows, warnings);

    /// <summary>Name of the file for messages.</summary>
    public string? File { get; }

    /// <summary>Comma, semicolon or tab.</summary>
    public char Separator { get; }

    /// <summary>Column names as written, trimmed.</summary>
    public IReadOnlyList<string> Header { get; }

    /// <summary>Rows that hold something, in file order.</summary>
    public IReadOnlyList<CsvRow> Rows { get; }

    /// <summary>What was odd but readable.</summary>
    public IReadOnlyList<Problem> Warnings { get; }

    /// <summary>Index of a column by name, any case; -1 when there is none.</summary>
    public int IndexOf(string name)
    {
        for (var i = 0; i < Header.Count; i++)
        {
            if (string.Equals(Header[i], name, StringComparison.OrdinalIgnoreCase)) return i;
        }

        return -1;
    }

    /// <summary>Reads a CSV.</summary>
    /// <exception cref="RefusedInputException">The file is too big, not text, has no header, or its rows do not fit its header;
    /// all such problems at once.</exception>
    public static CsvTable Read(Stream stream, string? file, CsvLimits? limits = null)
    {
        var errors = new List<Problem>();
        var table = Read(stream, file, errors, limits);
        return errors.Count == 0 ? table : throw new RefusedInputException([.. errors, .. table.Warnings]);
    }

    /// <summary>Reads a CSV whose rows may be faulty, so that the caller can report its own findings together with these.</summary>
    /// <param name="stream">The file.</param>
    /// <param name="file">Its name for messages.</param>
    /// <param name="rowErrors">Gets the rows that do not fit the header; such rows are left out of the table.</param>
    /// <param name="limits">Largest file.</param>
    /// <exception cref="RefusedInputException">The file is too big, not text, or has no usable header.</exception>
    public static CsvTable Read(Stream stream, string? file, ICollection<Problem> rowErrors, CsvLimits? limits = null)
    {
        limits ??= new CsvLimits();
        var warnings = new List<Problem>();
        var text = CsvText.Decode(stream, file, limits.Bytes, warnings);
        var (start, separator) = CsvText.Dialect(text);
        return ReadRows(text, start, separator, file, limits, warnings, rowErrors);
    }

    private static CsvTable ReadRows(
        string text, int firstRow, char separator, string? file, CsvLimits limits, List<Problem> warnings,
        ICollection<Problem> rowErrors)
    {
        var errors = new CsvErrors(file);
        var header = Array.Empty<string>();
        var rows = new List<CsvRow>();
        var number = firstRow - 1;
        var faulty = new HashSet<int>();
        var proper = CsvQuotes.Proper(firstRow == 1 ? text : text[(text.IndexOf('\n', StringComparison.Ordinal) + 1)..], separator, faulty);
        try
        {
            using var reader = Sep.Reader(o => o with
            {
                Sep = new Sep(separator), HasHeader = false, Unescape = true, DisableColCountCheck = true,
            }).FromText(proper);
            foreach (var row in reader)
            {
                number++;
                if (row.ColCount > limits.Columns) errors.TooManyColumns(number, row.ColCount, limits.Columns);
                if (rows.Count >= limits.Rows) errors.TooManyRows(limits.Rows);
                if (errors.Fatal) break;
                if (faulty.Contains(number - firstRow + 1))
                {
                    errors.StrayQuote(number);
                    if (header.Length == 0) break;
                    continue;
                }

                var cells = new string[row.ColCount];
                for (var i = 0; i < cells.Length; i++) cells[i] = row[i].ToString().Trim();
                if (Array.TrueForAll(cells, c => c.Length == 0)) continue;
                if (header.Length == 0)
                {
                    header = Trimmed(cells);
                    errors.CheckHeader(header, number);
                    continue;
                }

                if (cells.Length < header.Length || cells.AsSpan(header.Length).ContainsAnyExcept(string.Empty))
                {
                    errors.RowLength(number, cells.Length, header.Length);
                    continue;
                }

                rows.Add(new CsvRow(number, cells.Length == header.Length ? cells : cells[..header.Length]));
            }
        }
        catch (NotSupportedException)
        {
            // The reader's own limit of 16 Mi characters a row: nearly always a quotation mark that is never closed.
            errors.StrayQuote(number + 1);
        }

        if (header.Length == 0 && errors.List.Count == 0) errors.NoHeader();
        if (errors.Fatal || header.Length == 0) throw new RefusedInputException([.. errors.List, .. warnings]);
        foreach (var error in errors.List) rowErrors.Add(error);
        return new CsvTable(file, separator, header, rows, warnings);
    }

    private static string[] Trimmed(string[] header)
    {
        var used = header.Length;
        while (used > 0 && header[used - 1].Length == 0) used--;
        return header[..used];
    }
}
