using System.Reflection;
using System.Text.Json;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Web.Solving;

namespace StoreMap.Web.Storage;

/// <summary>The invented store, carried in the client with three simulated visits and its service record.</summary>
internal static class Demo
{
    public const string Id = "tern-hollow";

    /// <summary>Days of the visits, oldest first.</summary>
    public static IReadOnlyList<string> Days { get; } = ["2026-06-09", "2026-07-07", "2026-08-04"];

    /// <summary>Keeps the store with its visits on this device; entries already here stay.</summary>
    public static async Task<StoreRecord> Add(LocalStore store, EngineRoom engine)
    {
        using var service = Resource("service.json");
        var record = await store.Keep(Layout());
        await store.Add(ServiceRecordFile.Read(service, "demo.service.json"));
        // The latest visit's map is what is mostly looked at next: it is worked out before the earlier visits are made, while the latest is kept.
        Task<DemoVisit?> Made(string day) => engine.Ask("Opening the demo store", "DeskWork.DemoDay", DeskJson.Plain.DemoVisit, day);
        var latest = Made(Days[^1]);
        _ = engine.Ready("DeskWork.DemoReady", record.Document, store.Lengths);
        List<Task<DemoVisit?>> visits = [latest, .. Days.SkipLast(1).Select(Made)];
        foreach (var made in visits)
        {
            if (await made is not { } visit) break;
            await store.Add(visit.Id, Id, visit.Started, visit.Events);
        }

        return record;
    }

    /// <summary>A visit as journal entries. Fixed ids: opened on two devices, the demo's visit is the same visit.</summary>
    /// <param name="day">One of <see cref="Days"/>.</param>
    public static DemoVisit Visit(string day)
    {
        var plan = Layout().Plan;
        var points = ProbePlanner.Draft(plan, new Protocol()).Points;
        var survey = day == Days[^1] ? Logged(plan, points, day) : Read(plan, points, day);
        var id = $"{Id}-{day}";
        return new DemoVisit(id, survey.Start, VisitEvents.Of(survey, plan, id, "demo"));
    }

    private static LayoutDocument Layout()
    {
        using var file = new StreamReader(Resource("layout.json"));
        return LayoutDocument.Reread(file.ReadToEnd());
    }

    private static Survey Read(Plan plan, IReadOnlyList<ProbePoint> points, string day)
    {
        using var readings = Resource($"{day}.readings.csv");
        return SurveyReader.Read(readings, null, plan, points).Survey;
    }

    // The last visit was a continuous log, put back in place with the delay and response of its monitor.
    private static Survey Logged(Plan plan, IReadOnlyList<ProbePoint> points, string day)
    {
        using var logText = Resource($"{day}.log.csv");
        using var markText = Resource($"{day}.marks.csv");
        var options = new SurveyReadOptions { DelaySeconds = 5, T90Seconds = 5 };
        var log = LogCsv.Read(logText, null, plan, options);
        return LogAligner.Align(plan, points, log, MarksCsv.Read(markText, null, plan, points, options).Marks, new LogAlignOptions { DelayKnown = true }).Survey;
    }

    private static Stream Resource(string name) => Assembly.GetExecutingAssembly().GetManifestResourceStream("demo." + name)!;
}
