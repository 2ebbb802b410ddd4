using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace StoreMap.Raster;

/// <summary>Adds what the PDF writer leaves out (language, bookmarks, the title in the window bar, page sizes finer than a point) as
/// an incremental update: new objects and a new cross-reference section after the untouched file (ISO 32000-1, 7.5.6, 12.3.3,
/// 14.9.2).</summary>
internal static partial class PdfCatalog
{
    /// <summary>Completes a PDF.</summary>
    /// <param name="pdf">A PDF with a classical cross-reference table, as the writer makes it.</param>
    /// <param name="info">Language.</param>
    /// <param name="sheets">One per page: title of its bookmark, size in points.</param>
    /// <exception cref="InvalidOperationException">The file is not laid out as expected.</exception>
    public static byte[] Complete(byte[] pdf, PdfInfo info, IReadOnlyList<(string Title, double Width, double Height)> sheets)
    {
        var text = Encoding.Latin1.GetString(pdf);
        var trailer = Last(Trailer(), text).Groups[1].Value;
        var size = Number(Last(Size(), trailer).Groups[1].Value);
        var root = Number(Last(Root(), trailer).Groups[1].Value);
        var start = Number(Last(StartXref(), text).Groups[1].Value);
        var catalog = Object(text, root);
        var pages = PageObjects(text, Number(Last(Pages(), catalog).Groups[1].Value));

        var update = new StringBuilder(text.EndsWith('\n') ? "" : "\n");
        var offsets = new SortedDictionary<int, int>();
        void Add(int number, string body)
        {
            offsets[number] = text.Length + update.Length;
            update.Append(CultureInfo.InvariantCulture, $"{number} 0 obj\n{body}\nendobj\n");
        }

        var outline = size;
        var close = catalog.LastIndexOf(">>", StringComparison.Ordinal);
        Add(root, string.Create(
            CultureInfo.InvariantCulture,
            $"{catalog[..close]}\n/Lang {Text(info.Language)}\n/ViewerPreferences <</DisplayDocTitle true>>\n/Outlines {outline} 0 R\n/PageMode /UseOutlines\n>>"));
        Add(outline, string.Create(
            CultureInfo.InvariantCulture,
            $"<</Type /Outlines /First {outline + 1} 0 R /Last {outline + sheets.Count} 0 R /Count {sheets.Count}>>"));
        for (var i = 0; i < sheets.Count; i++)
        {
            var number = outline + 1 + i;
            var links = (i > 0 ? $" /Prev {number - 1} 0 R" : "") + (i + 1 < sheets.Count ? $" /Next {number + 1} 0 R" : "");
            Add(number, string.Create(
                CultureInfo.InvariantCulture,
                $"<</Title {Text(sheets[i].Title)} /Parent {outline} 0 R /Dest [{pages[i]} 0 R /Fit]{links}>>"));
        }

        for (var i = 0; i < pages.Count; i++)
        {
            // The writer rounds the page up to whole points and hangs the drawing from its upper edge.
            var page = Object(text, pages[i]);
            var top = double.Parse(Last(MediaBox(), page).Groups[1].Value, CultureInfo.InvariantCulture);
            var box = string.Create(
                CultureInfo.InvariantCulture, $"/MediaBox [0 {top - sheets[i].Height:0.###} {sheets[i].Width:0.###} {top:0.###}]");
            Add(pages[i], MediaBox().Replace(page, box));
        }

        var xref = text.Length + update.Length;
        update.Append("xref\n");
        foreach (var (number, offset) in offsets)
        {
            update.Append(CultureInfo.InvariantCulture, $"{number} 1\n{offset:0000000000} 00000 n \n");
        }

        var kept = Prev().Replace(Size().Replace(trailer, $"/Size {outline + 1 + sheets.Count}"), "");
        update.Append(CultureInfo.InvariantCulture, $"trailer\n<<{kept} /Prev {start}>>\nstartxref\n{xref}\n%%EOF\n");
        return [.. pdf, .. Encoding.Latin1.GetBytes(update.ToString())];
    }

    private static List<int> PageObjects(string text, int node)
    {
        var found = new List<int>();
        foreach (var kid in Reference().Matches(Last(Kids(), Object(text, node)).Groups[1].Value).Select(m => Number(m.Groups[1].Value)))
        {
            if (Kids().IsMatch(Object(text, kid))) found.AddRange(PageObjects(text, kid));
            else found.Add(kid);
        }

        return found;
    }

    private static string Object(string text, int number)
    {
        var head = $"\n{number.ToString(CultureInfo.InvariantCulture)} 0 obj\n";
        var from = text.IndexOf(head, StringComparison.Ordinal);
        if (from < 0) throw new InvalidOperationException($"The PDF has no object {number}.");
        from += head.Length;
        return text[from..text.IndexOf("endobj", from, StringComparison.Ordinal)].TrimEnd();
    }

    /// <summary>A text string: UTF-16 with byte order mark, written in hexadecimal.</summary>
    private static string Text(string value) => "<FEFF" + Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(value)) + ">";

    private static Match Last(Regex pattern, string text)
    {
        var matches = pattern.Matches(text);
        return matches.Count > 0 ? matches[^1] : throw new InvalidOperationException($"The PDF lacks {pattern}.");
    }

    private static int Number(string digits) => int.Parse(digits, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"trailer\s*<<(.*?)>>\s*startxref", RegexOptions.Singleline)]
    private static partial Regex Trailer();

    [GeneratedRegex(@"startxref\s+(\d+)")]
    private static partial Regex StartXref();

    [GeneratedRegex(@"/Size (\d+)")]
    private static partial Regex Size();

    [GeneratedRegex(@"/Root (\d+) 0 R")]
    private static partial Regex Root();

    [GeneratedRegex(@"/Prev \d+")]
    private static partial Regex Prev();

    [GeneratedRegex(@"/Pages (\d+) 0 R")]
    private static partial Regex Pages();

    [GeneratedRegex(@"/MediaBox \[0 0 [0-9.]+ ([0-9.]+)\]")]
    private static partial Regex MediaBox();

    [GeneratedRegex(@"/Kids\s*\[([^\]]*)\]")]
    private static partial Regex Kids();

    [GeneratedRegex(@"(\d+) 0 R")]
    private static partial Regex Reference();
}
