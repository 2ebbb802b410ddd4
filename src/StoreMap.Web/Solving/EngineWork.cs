using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;
using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Walking;
using StoreMap.Web.Storage;
using StoreMap.Zones;

namespace StoreMap.Web.Solving;

/// <summary>The long work, called from the background worker: everything goes in and out as text.</summary>
[SupportedOSPlatform("browser")]
internal static partial class EngineWork
{
    public const double ClearanceMetres = 0.3;

    // A fifth of the command line's, and no bounds, which the client does not show: the browser's interpreter is several times slower.
    public static readonly TourBudget RouteBudget = new() { Effort = 5_000, BoundWork = 0 };

    /// <summary>Probe points in walking order, as a JSON list of ids.</summary>
    [JSExport]
    public static string Route(string layout)
    {
        var plan = LayoutDocument.Reread(layout).Plan;
        var (draft, paths, _) = InReach(plan);
        var route = RoutePlanner.Plan(plan, paths, draft, new RouteRequest { Budget = RouteBudget });
        return new JsonArray([.. route.Order.Select(id => (JsonNode)id)]).ToJsonString();
    }

    /// <summary>The probe points that can be walked to, the walks between them, and the points left out.</summary>
    public static (ProbeDraft Draft, WalkingPaths Paths, IReadOnlyList<ProbePoint> LeftOut) InReach(Plan plan)
    {
        var floor = FreeFloor.Build(plan, ClearanceMetres);
        var (draft, leftOut) = ProbePlanner.Draft(plan, new Protocol()).InReach(floor);
        return (draft, new WalkingPaths(floor, threads: 1), leftOut);
    }

    /// <summary>Hits, leak zones and where to go next.</summary>
    [JSExport]
    public static string Locate(string layout, string lengths, string survey)
    {
        var plan = LayoutDocument.Reread(layout).Plan;
        var shown = plan.ShownIn(LengthUnits.FromSymbol(lengths));
        var state = State(plan, survey);
        var read = JournalReplay.Read(state, plan, ProbePlanner.Draft(plan, new Protocol()).Points);
        if (read.Survey.Readings.Count == 0) return AnswerText.Empty;
        var net = NetSurveyBuilder.Build(plan, read.Survey);
        var settings = new LocateSettings { Checked = [.. state.Panels.Select(PanelCheck.Of)] };
        // Earlier visits and the service record are not known here; the map goes by them too.
        return AnswerText.Write(AnswerText.Of(shown, net, LeakLocator.Locate(shown, net, [], settings)));
    }

    /// <summary>The survey as a file's text.</summary>
    [JSExport]
    public static string SurveyFile(string layout, string survey)
    {
        var plan = LayoutDocument.Reread(layout).Plan;
        var read = JournalReplay.Read(State(plan, survey), plan, ProbePlanner.Draft(plan, new Protocol()).Points);
        using var bytes = new MemoryStream();
        SurveyDocument.Of(read.Survey, plan).Write(bytes);
        return System.Text.Encoding.UTF8.GetString(bytes.ToArray());
    }

    /// <summary>A monitor's log put in place by a device's marks: a <see cref="LogTaken"/>.</summary>
    [JSExport]
    public static string TakeLog(string layout, string survey, string device, string log)
    {
        var plan = LayoutDocument.Reread(layout).Plan;
        var state = State(plan, survey);
        var points = ProbePlanner.Draft(plan, new Protocol()).Points;
        // Each device's technician has a monitor of their own.
        var mine = state.Events.LastOrDefault(e => e.Kind == JournalKinds.Start && e.Device == device)?.Body["instrument"]?["id"]?.GetValue<string>();
        List<Instrument> instruments = [.. JournalReplay.Read(state, plan, points).Survey.Instruments.Where(i => i.Id == mine)];
        using var csv = new MemoryStream(System.Text.Encoding.UTF8.GetBytes(log));
        LogTaken taken;
        try
        {
            var aligned = JournalMarks.Align(state, device, plan, points, csv, new SurveyReadOptions { Instruments = instruments });
            taken = new LogTaken([.. VisitEvents.Readings(aligned.Survey, plan).Select(Mine)], [.. aligned.Warnings.Select(Words)]);
        }
        catch (RefusedInputException e)
        {
            taken = new LogTaken([], [.. e.Problems.Select(Words)]);
        }

        return JsonSerializer.Serialize(taken, AnswerJson.Default.LogTaken);

        string Mine(JsonObject reading)
        {
            if (mine is not null) reading["instrument"] = mine;
            return reading.ToJsonString();
        }

        static string Words(Problem p) => p.Element is null ? p.Message : $"{p.Element}: {p.Message}";
    }

    /// <summary>A survey as the worker gets it.</summary>
    public static string Pack(DateTimeOffset started, IEnumerable<string> events) => new JsonObject
    {
        ["started"] = started.ToString("O"), ["events"] = new JsonArray([.. events.Select(e => (JsonNode)e)]),
    }.ToJsonString();

    private static JournalState State(Plan plan, string survey)
    {
        using var packed = JsonDocument.Parse(survey);
        var events = packed.RootElement.GetProperty("events").EnumerateArray().Select(e => JournalEvent.Parse(e.GetString()!)).OfType<JournalEvent>();
        return JournalReplay.Replay(plan.Id, plan.Units, packed.RootElement.GetProperty("started").GetDateTimeOffset(), events);
    }
}
