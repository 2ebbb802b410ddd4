using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Web.Storage;

/// <summary>Makes journal entries of a survey that came from a file: its start, and one entry a reading.</summary>
internal static class VisitEvents
{
    /// <summary>The entries' texts; the same survey under the same id gives the same entries, so that read in twice it is there once.</summary>
    public static IReadOnlyList<string> Of(Survey survey, Plan plan, string id, string device)
    {
        var file = SurveyDocument.Of(survey, plan).Root;
        var texts = new List<string>();
        void Add(string kind, DateTimeOffset time, JsonObject body) => texts.Add(new JournalEvent
        {
            Id = string.Create(CultureInfo.InvariantCulture, $"{id}-{texts.Count}"), Survey = id, Device = device, Number = texts.Count, Time = time, Kind = kind, Body = body,
        }.Write());

        // One start a monitor, as when another device joins.
        foreach (var instrument in file["instruments"]!.AsArray())
            Add(JournalKinds.Start, survey.Start, new JsonObject { ["technician"] = string.Join(", ", survey.Technicians), ["instrument"] = instrument!.DeepClone() });
        foreach (var (i, body) in Readings(file).Index()) Add(JournalKinds.Reading, survey.Readings[i].Time, body);
        Add(JournalKinds.Close, survey.Readings.Select(r => r.Time).Append(survey.Start).Max(), new JsonObject());
        return texts;
    }

    /// <summary>The bodies of a survey's readings, in its order.</summary>
    public static IEnumerable<JsonObject> Readings(Survey survey, Plan plan) => Readings(SurveyDocument.Of(survey, plan).Root);

    private static IEnumerable<JsonObject> Readings(JsonObject file) => file["readings"]!.AsArray().Select(r => Body(r!.AsObject()));

    // The number as text, as the number pad makes it.
    private static JsonObject Body(JsonObject reading)
    {
        var body = reading.DeepClone().AsObject();
        if (body["ppm"] is JsonValue ppm && ppm.GetValueKind() == JsonValueKind.Number) body["ppm"] = ppm.ToJsonString();
        return body;
    }
}
