using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>A JSON value as a message shows it: at most 80 characters, numbers as written.</summary>
internal static class JsonExcerpt
{
    private const int Most = 80;

    /// <summary>The start of a value's text, a text without its quotes; null for an absent one.</summary>
    public static string? Of(JsonNode? node) =>
        node is JsonValue value && value.GetValueKind() == JsonValueKind.String ? Cut(value.GetValue<string>()) : Quoted(node);

    /// <summary>The start of a value's text, texts in quotes; null for an absent one.</summary>
    public static string? Quoted(JsonNode? node)
    {
        if (node is null) return null;
        var text = new StringBuilder();
        Append(node, text);
        return Cut(text.ToString());
    }

    private static string Cut(string text)
    {
        return text.Length > Most ? string.Concat(text.AsSpan(0, Most - 1), "…") : text;
    }

    private static void Append(JsonNode? node, StringBuilder text)
    {
        if (text.Length > Most) return;
        switch (node)
        {
            case JsonArray array:
                AppendAll(array, '[', ']', text, (item, t) => Append(item, t));
                break;
            case JsonObject map:
                AppendAll(map, '{', '}', text, (pair, t) =>
                {
                    t.Append(pair.Key).Append(": ");
                    Append(pair.Value, t);
                });
                break;
            case JsonValue value:
                if (value.GetValueKind() == JsonValueKind.String) text.Append('"').Append(value.GetValue<string>()).Append('"');
                else text.Append(value.ToJsonString());
                break;
            default:
                text.Append("null");
                break;
        }
    }

    private static void AppendAll<T>(IEnumerable<T> items, char open, char close, StringBuilder text, Action<T, StringBuilder> append)
    {
        text.Append(open);
        var first = true;
        foreach (var item in items)
        {
            if (text.Length > Most) return;
            if (!first) text.Append(", ");
            first = false;
            append(item, text);
        }

        text.Append(close);
    }
}
