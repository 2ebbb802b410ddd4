using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace StoreMap.Surveys;

/// <summary>One thing that happened during a survey, as the device noted it: never changed afterwards. Kinds and bodies: docs/formats.md.</summary>
public sealed record JournalEvent
{
    /// <summary>Major version of the events that this version writes.</summary>
    public const int CurrentVersion = 1;

    /// <summary>Largest text of one event, characters.</summary>
    public const int MostCharacters = 16_384;

    /// <summary>The device of what was read in from a file.</summary>
    public const string FileDevice = "file";

    private static readonly string[] Fields = ["v", "id", "survey", "device", "number", "time", "kind", "body"];

    /// <summary>Made by the device, unique for ever.</summary>
    public required string Id { get; init; }

    /// <summary>The survey's id.</summary>
    public required string Survey { get; init; }

    /// <summary>The device's id.</summary>
    public required string Device { get; init; }

    /// <summary>Counts up on one device within one survey.</summary>
    public required int Number { get; init; }

    /// <summary>The device's clock, with offset.</summary>
    public required DateTimeOffset Time { get; init; }

    /// <summary>What happened, one of <see cref="JournalKinds"/>; a later version's kinds are kept and passed over.</summary>
    public required string Kind { get; init; }

    /// <summary>Major version of the event's form.</summary>
    public int Version { get; init; } = CurrentVersion;

    /// <summary>What belongs to the kind. Not to be changed.</summary>
    public required JsonObject Body { get; init; }

    /// <summary>The event as it is kept and sent.</summary>
    public string Write() => new JsonObject
    {
        ["v"] = Version, ["id"] = Id, ["survey"] = Survey, ["device"] = Device, ["number"] = Number,
        ["time"] = Time.ToString("yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture), ["kind"] = Kind, ["body"] = Body.DeepClone(),
    }.ToJsonString();

    /// <summary>Reads an event; null when it is none: ids of 1 to 64 of [A-Za-z0-9._-], a time with offset, a kind in kebab case.</summary>
    /// <param name="text">The event's JSON.</param>
    public static JournalEvent? Parse(string text)
    {
        if (text.Length > MostCharacters) return null;
        try
        {
            return JsonNode.Parse(text) is JsonObject map ? Of(map) : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException or FormatException or ArgumentException)
        {
            return null;
        }
    }

    private static JournalEvent? Of(JsonObject map)
    {
        if (Fields.Any(f => map[f] is null)) return null;
        // Taken out of it, it need not be copied.
        var body = map["body"]!.AsObject();
        map.Remove("body");
        var made = new JournalEvent
        {
            Version = (int)map["v"]!, Id = (string)map["id"]!, Survey = (string)map["survey"]!, Device = (string)map["device"]!,
            Number = (int)map["number"]!, Kind = (string)map["kind"]!, Body = body,
            Time = DateTimeOffset.ParseExact(
                (string)map["time"]!, "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFzzz", CultureInfo.InvariantCulture),
        };
        var ids = IsId(made.Id) && IsId(made.Survey) && IsId(made.Device) && IsId(made.Kind);
        return ids && made.Version >= 1 && made.Number >= 0 ? made : null;
    }

    /// <summary>True for 1 to 64 of [A-Za-z0-9._-].</summary>
    /// <param name="id">Any text, or null.</param>
    public static bool IsId(string? id) =>
        id is { Length: > 0 and <= 64 } && id.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '_' or '-');
}
