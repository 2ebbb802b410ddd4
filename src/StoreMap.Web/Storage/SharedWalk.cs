using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Surveys;

namespace StoreMap.Web.Storage;

/// <summary>The walk that someone planned, for all devices: the order is an entry in the store's journal, and the latest one holds.</summary>
internal static class SharedWalk
{
    private const string TimeFormat = "HH:mm";

    /// <summary>Keeps the store's walk as it is on this device as the one that holds, to be sent.</summary>
    /// <returns>The store as it is kept now.</returns>
    public static async Task<StoreRecord> Share(LocalStore local, StoreRecord record, DateTimeOffset now)
    {
        var body = new JsonObject { ["order"] = Array(record.Order), ["pinned"] = Array(record.Pinned) };
        if (record.Begin is { } begin) body["begin"] = begin.ToString(TimeFormat, CultureInfo.InvariantCulture);
        string? id = null;
        await local.Note(record.Id, JournalKinds.Walk, body, now, e =>
        {
            id = e.Id;
            return local.Add(e);
        });
        return await local.Change(record.Id, r => r with { Walk = id }) ?? record;
    }

    /// <summary>Takes over the latest walk in a store's journal, unless this device has it.</summary>
    public static async Task TakeIn(LocalStore local, string store)
    {
        var latest = (await local.Events(store)).Where(e => e.Kind == JournalKinds.Walk).OrderBy(e => e.Time).ThenBy(e => e.Device, StringComparer.Ordinal).ThenBy(e => e.Number).LastOrDefault();
        if (latest is null) return;
        await local.Change(store, r => r.Walk == latest.Id ? null : r with
        {
            Walk = latest.Id, Order = Texts(latest.Body["order"]), Pinned = Texts(latest.Body["pinned"]),
            Begin = TimeOnly.TryParseExact((string?)latest.Body["begin"], TimeFormat, CultureInfo.InvariantCulture, DateTimeStyles.None, out var begin) ? begin : null,
        });
    }

    private static JsonArray Array(IReadOnlyList<string>? texts) => [.. (texts ?? []).Select(t => JsonValue.Create(t))];

    private static List<string>? Texts(JsonNode? node) => node is JsonArray { Count: > 0 } array ? [.. array.Select(n => (string?)n).OfType<string>()] : null;
}
