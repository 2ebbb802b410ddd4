using System.Globalization;
using System.Text;

namespace StoreMap.Plans;

/// <summary>One pair of a DXF file: a group code and its value.</summary>
/// <param name="Code">Group code.</param>
/// <param name="Value">The value's line, without its line end.</param>
/// <param name="Line">Line number of the value, from 1.</param>
internal readonly record struct DxfGroup(int Code, string Value, int Line)
{
    /// <summary>True for codes whose value is a real number of geometry (10 to 59, 140 to 149, 210 to 239).</summary>
    public bool IsNumber => Code is (>= 10 and <= 59) or (>= 140 and <= 149) or (>= 210 and <= 239);

    /// <summary>The value as a finite number; null when it is none.</summary>
    public double? Number =>
        double.TryParse(Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;
}

/// <summary>Parts a text DXF into its groups. Format: the published DXF reference of group codes; R12 to R2018 read alike.</summary>
internal static class DxfGroups
{
    // The first 22 bytes of the binary variant end in these.
    private static readonly byte[] BinaryMark = [0x0D, 0x0A, 0x1A, 0x00];

    // From this version on, texts are UTF-8.
    private const string FirstUnicode = "AC1021";

    /// <summary>All groups of a file; a file cut short gives those before the cut, with a warning.</summary>
    /// <exception cref="RefusedInputException">It is no text DXF.</exception>
    public static List<DxfGroup> Read(ReadOnlySpan<byte> bytes, ProblemList problems, string? file)
    {
        if (bytes.Length > 22 && bytes[18..22].SequenceEqual(BinaryMark))
            throw Refused(file, "dxf-binary", "The file is a binary DXF. Save it as a text (ASCII) DXF and import that.");
        var lines = Decode(bytes).Split('\n');
        List<DxfGroup> groups = [];
        for (var i = 0; i + 1 < lines.Length; i += 2)
        {
            var code = lines[i].Trim();
            if (code.Length == 0 && lines.Skip(i).All(string.IsNullOrWhiteSpace)) break;
            if (!int.TryParse(code, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number))
            {
                if (groups.Count < 2) throw Refused(file, "dxf-text", "The file is no text DXF: it must begin with group codes and values on lines of their own. Is it the right file?");
                problems.Warn($"line {i + 1}", null, code, "dxf-group", "A group code is expected here; the rest of the file is left out.");
                return groups;
            }

            groups.Add(new DxfGroup(number, lines[i + 1].TrimEnd('\r'), i + 2));
            if (number == 0 && lines[i + 1].Trim() == "EOF") return groups;
        }

        if (groups.Count < 2) throw Refused(file, "dxf-text", "The file is no text DXF. Is it the right file?");
        problems.Warn($"line {lines.Length}", null, null, "dxf-cut", "The file ends without EOF: it was cut short. What is complete before that is used; save it again if something is missing.");
        return groups;
    }

    /// <summary>A refusal of the whole file.</summary>
    public static RefusedInputException Refused(string? file, string rule, string message) =>
        new([new Problem(Severity.Error, file, null, null, null, rule, message)]);

    private static string Decode(ReadOnlySpan<byte> bytes)
    {
        var head = Encoding.Latin1.GetString(bytes[..Math.Min(bytes.Length, 8192)]).Split('\n').Select(l => l.Trim()).ToList();
        if (bytes.StartsWith(Encoding.UTF8.Preamble)) return Encoding.UTF8.GetString(bytes).TrimStart('\uFEFF');
        if (string.CompareOrdinal(After("$ACADVER") ?? "", FirstUnicode) >= 0) return Encoding.UTF8.GetString(bytes);
        var page = (After("$DWGCODEPAGE") ?? "").ToUpperInvariant().Replace("ANSI_", "", StringComparison.Ordinal);
        return CodePage(page).GetString(bytes);

        string? After(string name)
        {
            var at = head.IndexOf(name);
            return at >= 0 && at + 2 < head.Count ? head[at + 2] : null;
        }
    }

    private static Encoding CodePage(string page)
    {
        var known = int.TryParse(page, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? CodePagesEncodingProvider.Instance.GetEncoding(number) : null;
        return known ?? CodePagesEncodingProvider.Instance.GetEncoding(1252)!;
    }
}
