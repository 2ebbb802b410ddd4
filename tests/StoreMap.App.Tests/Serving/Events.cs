using System.Text.Json.Nodes;
using StoreMap.Surveys;

namespace StoreMap.Tests.Serving;

/// <summary>Journal events as a device writes them.</summary>
internal static class Events
{
    public static DateTimeOffset Start { get; } = new(2026, 8, 4, 4, 0, 0, TimeSpan.FromHours(-5));

    public static string Reading(string survey, string id, string fixture, double at, string ppm, int minute = 1) =>
        Of(survey, id, JournalKinds.Reading, minute, new JsonObject { ["fixture"] = fixture, ["at"] = at, ["ppm"] = ppm });

    /// <summary>Any event, its minute for its number.</summary>
    public static string Of(string survey, string id, string kind, int minute, JsonObject body) => new JournalEvent
    {
        Id = id, Survey = survey, Device = "d1", Number = minute, Time = Start.AddMinutes(minute), Kind = kind, Body = body,
    }.Write();

    public static StringContent Batch(string survey, params string[] events) => Of("tern-hollow", events);

    public static StringContent Of(string store, params string[] events) => From(store, "2026-08-04T04:00:00-05:00", events);

    /// <summary>A batch of a visit that started at a time as the device wrote it.</summary>
    public static StringContent From(string store, string started, params string[] events) => TestServer.Json(new JsonObject
    {
        ["store"] = store, ["started"] = started, ["events"] = new JsonArray([.. events.Select(e => (JsonNode)e)]),
    }.ToJsonString());
}
