using System.Text.Json;
using System.Text.Json.Serialization;

namespace StoreMap.Zones;

/// <summary>A visit's answer as text, to be kept where locating again costs more than reading: written and read back it is the same to the
/// last digit. It belongs to the version of the engine that wrote it; for other programs there is <c>locate --json</c>.</summary>
public static class LocateText
{
    /// <summary>Writes an answer.</summary>
    public static string Write(LocateResult result) => JsonSerializer.Serialize(result, LocateTextJson.Default.LocateResult);

    /// <summary>Reads an answer.</summary>
    /// <exception cref="JsonException">It is no answer, or that of another version.</exception>
    public static LocateResult Read(string text) => JsonSerializer.Deserialize(text, LocateTextJson.Default.LocateResult) ?? throw new JsonException("There is no answer.");
}

[JsonSourceGenerationOptions(NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals, IgnoreReadOnlyProperties = true)]
[JsonSerializable(typeof(LocateResult))]
internal sealed partial class LocateTextJson : JsonSerializerContext;
