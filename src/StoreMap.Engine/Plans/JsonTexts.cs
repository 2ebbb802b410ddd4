using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Texts of JSON that somebody else wrote and that may be anything.</summary>
public static class JsonTexts
{
    /// <summary>The text that a node is; null when it is none.</summary>
    /// <param name="node">The node; null for one that is not there.</param>
    public static string? Text(this JsonNode? node) => node is JsonValue value && value.GetValueKind() == JsonValueKind.String ? (string?)value : null;
}
