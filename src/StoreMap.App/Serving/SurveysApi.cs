using System.Text;
using StoreMap.Data;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;

namespace StoreMap.App.Serving;

/// <summary>Surveys and their journal.</summary>
internal static class SurveysApi
{
    /// <summary>Most events of one batch.</summary>
    public const int MostEvents = 500;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/stores/{store}/surveys", (string store, Journal journal) => journal.Surveys(store)).WithSummary("Surveys of a store, the latest first.");
        api.MapPost("/surveys/{survey}/events", Append).WithSummary("Adds events; a batch sent again changes nothing. Answered once they are on the disk.");
        api.MapGet("/surveys/{survey}/events", (string survey, long? after, Journal journal) => journal.Events(survey, after ?? 0, 2000)).WithSummary("Events after a place in the order of receipt.");
        api.MapGet("/surveys/{survey}/survey.json", File).WithSummary("The survey as a file.");
    }

    private static IResult Append(string survey, EventBatch batch, HttpContext context, Journal journal, Layouts layouts)
    {
        if (!JournalEvent.IsId(survey)) return Bad("survey", "The survey's id is 1 to 64 of letters, digits, dot, dash and underscore.");
        if (batch.Events is not { } texts || texts.Count > MostEvents) return Bad("batch", $"A batch holds at most {MostEvents} events.");
        if (batch.Store is null || layouts.Latest(batch.Store) is null) return Results.NotFound(new ApiProblem("store", "The survey's store is not here yet. Send its layout first."));
        var events = new List<NewEvent>();
        foreach (var text in texts)
        {
            if (text is null || JournalEvent.Parse(text) is not { } one || one.Survey != survey) return Bad("event", "One of the events can't be read, or belongs to another survey. Nothing was taken.");
            events.Add(new NewEvent(one.Id, text));
        }

        var result = journal.Append(survey, batch.Store, batch.Started, events, SignInCookie.NameOf(context));
        return result is null ? Results.Conflict(new ApiProblem("survey", "This survey belongs to another store.")) : Results.Ok(result);
    }

    private static IResult File(string survey, Journal journal, Layouts layouts)
    {
        if (journal.Survey(survey) is not { } row || layouts.Latest(row.Store) is not { } layout) return Results.NotFound(new ApiProblem("survey", "There is no such survey."));
        return Results.Text(Encoding.UTF8.GetString(SurveyFile(row, layout, journal)), "application/json");
    }

    /// <summary>The survey as a file, put together from its events.</summary>
    public static byte[] SurveyFile(SurveyRow row, LayoutRow layout, Journal journal)
    {
        var plan = LayoutDocument.Parse(layout.Document).Plan;
        var read = JournalReplay.Read(State(row, plan, journal), plan, ProbePlanner.Draft(plan, new Protocol()).Points);
        using var bytes = new MemoryStream();
        SurveyDocument.Of(read.Survey, plan).Write(bytes);
        return bytes.ToArray();
    }

    /// <summary>What a survey's events come to.</summary>
    public static JournalState State(SurveyRow row, Plan plan, Journal journal) =>
        JournalReplay.Replay(row.Store, plan.Units, row.Started, journal.Events(row.Id).Select(e => JournalEvent.Parse(e.Document)).OfType<JournalEvent>());

    private static IResult Bad(string rule, string message) => Results.BadRequest(new ApiProblem(rule, message));
}

/// <summary>Events of one survey, each as the JSON text that the device wrote, so that it is kept letter for letter.</summary>
/// <param name="Store">The survey's store.</param>
/// <param name="Started">Start of the visit.</param>
/// <param name="Events">In any order.</param>
internal sealed record EventBatch(string? Store, DateTimeOffset Started, IReadOnlyList<string?>? Events);
