using System.Text;

namespace StoreMap.Plans;

/// <summary>Quotation marks of a CSV put the way RFC 4180 wants them, so that a mark that stands in a length, as in 12'6", is a mark and
/// swallows nothing.</summary>
/// <remarks>A quoted cell that is never closed would run on to the next mark, rows further down. Its row alone is given up: reading goes on with
/// the line after the one it begins in. No mark is looked at more than twice for it, since a scan ends at the next cell that opens.</remarks>
internal static class CsvQuotes
{
    private const char Mark = '"';

    /// <summary>Quotes the cells that hold a mark but do not begin with one; blanks rows that can't be told.</summary>
    /// <param name="text">The CSV.</param>
    /// <param name="separator">Comma, semicolon or tab.</param>
    /// <param name="faulty">Gets the rows that were made blank, from 1.</param>
    public static string Proper(string text, char separator, ICollection<int> faulty)
    {
        if (!text.Contains(Mark, StringComparison.Ordinal)) return text;
        var proper = new StringBuilder(text.Length + (text.Length / 8));
        var at = 0;
        for (var row = 1; at < text.Length; row++)
        {
            var kept = proper.Length;
            if (Row(text, at, separator, proper) is { } end) at = end;
            else
            {
                proper.Length = kept;
                faulty.Add(row);
                at += LineLength(text.AsSpan(at));
                // Blank and last, it would not be read as a row at all.
                if (at == text.Length) proper.Append('\n');
            }

            at += Break(text, at, proper);
        }

        return proper.ToString();
    }

    // Writes the cells of a row; null when its marks make no sense, else where its line ends.
    private static int? Row(string text, int at, char separator, StringBuilder proper)
    {
        while (true)
        {
            var start = at;
            if (at < text.Length && text[at] == Mark)
            {
                if (Closing(text, at) is not { } closing) return null;
                at = closing + 1;
                var rest = text.AsSpan(at, CellLength(text.AsSpan(at), separator));
                if (rest.Length > 0 && (rest.Contains(Mark) || text.AsSpan(start, at - start).ContainsAny('\r', '\n'))) return null;
                at += rest.Length;
                proper.Append(text, start, at - start);
            }
            else
            {
                at += CellLength(text.AsSpan(at), separator);
                var cell = text.AsSpan(start, at - start);
                if (!cell.Contains(Mark)) proper.Append(cell);
                else if (cell.TrimStart()[0] == Mark) return null;
                else proper.Append(Mark).Append(cell.ToString().Replace("\"", "\"\"", StringComparison.Ordinal)).Append(Mark);
            }

            if (at >= text.Length || text[at] != separator) return at;
            proper.Append(separator);
            at++;
        }
    }

    // A doubled mark inside is one that belongs to the cell.
    private static int? Closing(string text, int opening)
    {
        for (var i = opening + 1; i < text.Length; i++)
        {
            if (text[i] != Mark) continue;
            if (i + 1 >= text.Length || text[i + 1] != Mark) return i;
            i++;
        }

        return null;
    }

    private static int CellLength(ReadOnlySpan<char> from, char separator) => from.IndexOfAny(separator, '\r', '\n') is var i and >= 0 ? i : from.Length;

    private static int LineLength(ReadOnlySpan<char> from) => from.IndexOfAny('\r', '\n') is var i and >= 0 ? i : from.Length;

    private static int Break(string text, int at, StringBuilder proper)
    {
        var length = at >= text.Length ? 0 : text[at] == '\r' && at + 1 < text.Length && text[at + 1] == '\n' ? 2 : 1;
        proper.Append(text, at, length);
        return length;
    }
}
