using System.Globalization;
using System.Text.RegularExpressions;

namespace StoreMap.Plans;

/// <summary>Numbers of a CSV with a decimal point or a decimal comma, one way throughout a file.</summary>
/// <param name="DecimalComma">True when the file writes 15,5.</param>
internal sealed partial record CsvNumbers(bool DecimalComma)
{
    /// <summary>Looks at all numbers of some columns to tell how decimals are written.</summary>
    /// <param name="table">The table.</param>
    /// <param name="columns">Indices of the number columns; negative ones are passed over.</param>
    /// <param name="errors">Gets an error when both ways occur, or when commas may be thousands.</param>
    public static CsvNumbers Of(CsvTable table, IReadOnlyList<int> columns, ICollection<Problem> errors)
    {
        (int Row, string Column, string Text)? point = null, comma = null;
        var onlyThousands = true;
        foreach (var row in table.Rows)
        {
            foreach (var column in columns)
            {
                if (column < 0) continue;
                var text = row.Cells[column];
                if (PointNumber().IsMatch(text)) point ??= (row.Number, table.Header[column], text);
                else if (CommaNumber().IsMatch(text))
                {
                    comma ??= (row.Number, table.Header[column], text);
                    onlyThousands &= Thousands().IsMatch(text);
                }
            }
        }

        if (comma is { } c && point is { } p)
        {
            errors.Add(new Problem(Severity.Error, table.File, $"row {c.Row.ToString(CultureInfo.InvariantCulture)}", c.Column, c.Text,
                "csv-decimals",
                $"Decimals are written with a comma here and with a point in row {p.Row.ToString(CultureInfo.InvariantCulture)} "
                + $"({p.Column} {p.Text}). Use one way in a file, without thousands separators."));
        }
        else if (comma is { } t && onlyThousands && table.Separator == ',')
        {
            errors.Add(new Problem(Severity.Error, table.File, $"row {t.Row.ToString(CultureInfo.InvariantCulture)}", t.Column, t.Text,
                "csv-decimals",
                "The comma may be a decimal comma or a thousands separator. Write the number without thousands separator."));
        }

        return new CsvNumbers(comma is not null);
    }

    /// <summary>Parses a finite number; null when the text is none.</summary>
    public double? Parse(ReadOnlySpan<char> text)
    {
        text = text.Trim();
        if (text.IsEmpty || text.Length > 64) return null;
        Span<char> plain = stackalloc char[text.Length];
        text.CopyTo(plain);
        if (DecimalComma)
        {
            if (plain.Contains('.')) return null;
            plain.Replace(',', '.');
        }

        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        return double.TryParse(plain, Style, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;
    }

    [GeneratedRegex(@"^[<>]?\s*[-+]?\d*\.\d+$")]
    private static partial Regex PointNumber();

    [GeneratedRegex(@"^[<>]?\s*[-+]?\d*,\d+$")]
    private static partial Regex CommaNumber();

    [GeneratedRegex(@"^[<>]?\s*[-+]?[1-9]\d{0,2},\d{3}$")]
    private static partial Regex Thousands();
}
