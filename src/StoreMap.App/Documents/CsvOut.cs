namespace StoreMap.App.Documents;

/// <summary>Cells of a CSV that is written (RFC 4180).</summary>
internal static class CsvOut
{
    /// <summary>A text, quoted where it must be.</summary>
    public static string Cell(string text) =>
        text.AsSpan().ContainsAny(",\"\r\n") ? "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"" : text;
}
