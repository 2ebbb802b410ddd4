using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Writes a layout's JSON for people: short objects and points on one line, numbers as they were read.</summary>
internal static class LayoutWriter
{
    private const int LineLength = 120;
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The whole text, ending with a line feed.</summary>
    public static string Text(JsonObject root)
    {
        var text = new StringBuilder();
        Append(root, 0, text);
        return text.Append('\n').ToString();
    }

    private static void Append(JsonNode? node, int depth, StringBuilder text)
    {
        var line = OneLine(node);
        // An element of a list stands on one line however long it is: one fixture, one line to compare.
        if (depth >= 2 || line.Length <= LineLength || node is JsonValue or null)
        {
            text.Append(line);
            return;
        }

        var (open, close) = node is JsonObject ? ('{', '}') : ('[', ']');
        text.Append(open);
        var first = true;
        foreach (var (name, child) in Children(node))
        {
            text.Append(first ? "\n" : ",\n").Append(' ', 2 * (depth + 1)).Append(name);
            first = false;
            Append(child, depth + 1, text);
        }

        text.Append('\n').Append(' ', 2 * depth).Append(close);
    }

    private static IEnumerable<(string Name, JsonNode? Child)> Children(JsonNode node) => node is JsonObject map
        ? map.Select(pair => ($"{Quoted(pair.Key)}: ", pair.Value))
        : node.AsArray().Select(child => ("", child));

    private static string OneLine(JsonNode? node) => node switch
    {
        null => "null",
        JsonObject map => "{" + string.Join(", ", map.Select(pair => $"{Quoted(pair.Key)}: {OneLine(pair.Value)}")) + "}",
        JsonArray array => "[" + string.Join(", ", array.Select(OneLine)) + "]",
        _ => node.ToJsonString(Plain),
    };

    private static string Quoted(string name) => JsonValue.Create(name).ToJsonString(Plain);
}
