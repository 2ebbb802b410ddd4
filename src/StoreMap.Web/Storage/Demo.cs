using System.Globalization;
using System.Reflection;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;

namespace StoreMap.Web.Storage;

/// <summary>The invented store, carried in the client, with one simulated visit as journal events.</summary>
internal static class Demo
{
    public const string Id = "tern-hollow";

    // Fixed ids: opened on two devices, the demo's visit is the same visit.
    private const string SurveyId = "tern-hollow-2026-07-07";

    public static async Task<StoreRecord> Add(LocalStore store)
    {
        using var file = Resource("demo.layout.json");
        var layout = LayoutDocument.Read(file, "demo.layout.json");
        var record = await store.Keep(layout);
        using var readings = Resource("demo.readings.csv");
        var survey = SurveyReader.Read(readings, "demo.readings.csv", layout.Plan, ProbePlanner.Draft(layout.Plan, new Protocol()).Points).Survey;
        var texts = SurveyDocument.Of(survey, layout.Plan).Root["readings"]!.AsArray().Select((r, i) => Event(survey, r!.AsObject(), i).Write()).ToArray();
        await Browser.Restore(SurveyId, System.Text.Json.JsonSerializer.Serialize(texts, Json.Default.StringArray));
        if (await store.Survey(SurveyId) is null) await store.Put(new SurveyRecord { Id = SurveyId, Store = Id, Started = survey.Start });
        return record;
    }

    private static JournalEvent Event(Survey survey, JsonObject reading, int i) => new()
    {
        Id = string.Create(CultureInfo.InvariantCulture, $"{SurveyId}-{i}"), Survey = SurveyId, Device = "demo", Number = i, Time = survey.Readings[i].Time,
        Kind = JournalKinds.Reading, Body = Body(reading),
    };

    // The number as text, as the number pad makes it.
    private static JsonObject Body(JsonObject reading)
    {
        var body = reading.DeepClone().AsObject();
        if (body["ppm"] is JsonValue ppm && ppm.GetValueKind() == System.Text.Json.JsonValueKind.Number) body["ppm"] = ppm.ToJsonString();
        return body;
    }

    private static Stream Resource(string name) => Assembly.GetExecutingAssembly().GetManifestResourceStream(name)!;
}
