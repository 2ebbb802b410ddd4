using System.Text;
using System.Text.Json;

namespace StoreMap.Plans;

/// <summary>Finds what a JSON reader lets pass or tells too little of, with its line: fields that stand twice in one object, of which one
/// would be kept in silence, and texts with half a character in them.</summary>
internal static class JsonScan
{
    /// <summary>Reports every such place up to the first fault of another kind.</summary>
    /// <returns>True when there was any.</returns>
    public static bool Tell(string text, ProblemList problems)
    {
        var bytes = Encoding.UTF8.GetBytes(text);
        var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true, MaxDepth = LayoutLimits.Depth });
        var open = new Stack<HashSet<string>>();
        try
        {
            while (!problems.Full && reader.Read())
            {
                if (reader.TokenType == JsonTokenType.StartObject) open.Push(new HashSet<string>(StringComparer.Ordinal));
                if (reader.TokenType == JsonTokenType.EndObject) open.Pop();
                if (reader.TokenType is JsonTokenType.PropertyName or JsonTokenType.String) CheckText(ref reader, open, bytes, problems);
            }
        }
        catch (JsonException)
        {
            // The text ends early or is faulty further on; what was found up to there stands.
        }

        return problems.HasErrors;
    }

    private static void CheckText(ref Utf8JsonReader reader, Stack<HashSet<string>> open, byte[] bytes, ProblemList problems)
    {
        var line = 1 + bytes.AsSpan(0, (int)reader.TokenStartIndex).Count((byte)'\n');
        try
        {
            var text = reader.GetString()!;
            if (reader.TokenType != JsonTokenType.PropertyName || open.Peek().Add(text)) return;
            problems.Error(null, text, $"line {line}", "field-twice", $"The field {text} stands twice in one object, again on line {line}; remove one of them.");
        }
        catch (InvalidOperationException)
        {
            problems.Error(null, null, $"line {line}", "json-text", $"A text on line {line} has half a character in it (a lone \\ud800 to \\udfff); write the whole character.");
        }
    }
}
