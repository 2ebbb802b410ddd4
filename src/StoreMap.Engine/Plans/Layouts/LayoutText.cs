using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Turns a file's text into a JSON object: comments and trailing commas are tolerated, depth is bounded, a field may not stand twice.</summary>
internal static class LayoutText
{
    private static readonly JsonDocumentOptions Options = new()
    {
        CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true, MaxDepth = LayoutLimits.Depth, AllowDuplicateProperties = false,
    };

    /// <summary>Parses the text.</summary>
    /// <param name="text">The file's text.</param>
    /// <param name="problems">Gets the problem.</param>
    /// <param name="what">What the file is, for the message.</param>
    /// <returns>The object; null, with one problem added, when the text is none.</returns>
    public static JsonObject? Parse(string text, ProblemList problems, string what = "layout")
    {
        // Only such texts can hold half a character, and the scan costs as much as the reading.
        if (text.Contains("\\ud", StringComparison.OrdinalIgnoreCase) && JsonScan.Tell(text, problems)) return null;
        try
        {
            if (JsonNode.Parse(Encoding.UTF8.GetBytes(text), documentOptions: Options) is JsonObject root) return root;
            problems.Error(null, null, null, "json-object", $"A {what} is one JSON object, {{ … }}; this file holds something else.");
        }
        catch (JsonException e)
        {
            Tell(text, e, problems, what);
        }

        return null;
    }

    private static void Tell(string text, JsonException e, ProblemList problems, string what)
    {
        if (JsonScan.Tell(text, problems)) return;
        var place = e.LineNumber is { } at ? $"line {at + 1}, byte {(e.BytePositionInLine ?? 0) + 1}" : "the place named";
        if (string.IsNullOrWhiteSpace(text)) problems.Error(null, null, null, "json", $"The file is empty; a {what} is one JSON object, {{ … }}.");
        else if (text.TrimStart()[0] != '{') problems.Error(null, place, null, "json", $"This is no {what}, which is JSON and begins with {{. Is it another file? The layout comes first, then the surveys.");
        else if (e.Message.Contains("maximum configured depth", StringComparison.Ordinal)) problems.Error(null, place, null, "json-depth", $"The file is nested deeper than {LayoutLimits.Depth} levels at {place}, which no {what} needs.");
        else problems.Error(null, place, null, "json", $"The file is no valid JSON{Reason(e)} Mend it at {place}, or take an unbroken copy; comments and trailing commas are allowed.");
    }

    // The library appends "LineNumber: 3 | BytePositionInLine: 7." to its sentence; the place is told in our own words. In a browser it has no
    // sentences, only their names.
    private static string Reason(JsonException e)
    {
        var cut = e.Message.IndexOf(" LineNumber:", StringComparison.Ordinal);
        var reason = cut < 0 ? e.Message : e.Message[..cut];
        return reason.Contains(' ', StringComparison.Ordinal) ? $": {reason}" : ".";
    }
}
