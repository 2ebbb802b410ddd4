using System.Text;
using System.Text.Json.Nodes;
using StoreMap.Data;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.App.Serving;

/// <summary>The service journal of a store, and the service record that comes of it.</summary>
internal static class FindingsApi
{
    private const int MostRead = 2000;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/stores/{store}/findings", (string store, long? after, Findings findings) => findings.Of(store, after ?? 0, MostRead)).WithSummary("Events after a place in the order of receipt, with who and when.");
        api.MapPost("/stores/{store}/findings", Append).WithSummary("Adds events; a batch sent again changes nothing. Answered once they are on the disk.");
        api.MapGet("/stores/{store}/service.json", File).WithSummary("The service record as a file.");
    }

    private static IResult Append(string store, FindingBatch batch, HttpContext context, Findings findings, Layouts layouts)
    {
        if (layouts.Latest(store) is null) return Results.NotFound(new ApiProblem("store", "The store is not here yet. Send its layout first."));
        if (batch.Events is not { } texts || texts.Count > SurveysApi.MostEvents) return Results.BadRequest(new ApiProblem("batch", $"A batch holds at most {SurveysApi.MostEvents} events."));
        var entries = new List<NewFindingEntry>();
        foreach (var text in texts)
        {
            if (text is null || JournalEvent.Parse(text) is not { } one || one.Survey != store)
                return Results.BadRequest(new ApiProblem("event", "One of the events can't be read, or belongs to another store. Nothing was taken."));
            entries.Add(new NewFindingEntry(one.Id, (one.Body["entry"] as JsonObject)?["finding"].Text() ?? "", text));
        }

        return Results.Ok(findings.Append(store, entries, SignInCookie.NameOf(context)));
    }

    private static IResult File(string store, Findings findings, Journal journal, Layouts layouts) => layouts.Latest(store) is { } layout
        ? Results.Text(Encoding.UTF8.GetString(RecordFile(Record(LayoutDocument.Parse(layout.Document).Plan, findings, journal))), "application/json")
        : Results.NotFound(new ApiProblem("store", "There is no such store."));

    /// <summary>A store's service record, put together from its journal and the panels confirmed at its visits.</summary>
    public static ServiceRecordFile Record(Plan plan, Findings findings, Journal journal)
    {
        var panels = journal.Surveys(plan.Id).SelectMany(row => FoundPanel.Of(row.Id, SurveysApi.State(row, plan, journal)));
        return ServiceJournal.Replay(plan, findings.Of(plan.Id).Select(e => JournalEvent.Parse(e.Document)).OfType<JournalEvent>(), panels).File;
    }

    /// <summary>The bytes of a record.</summary>
    public static byte[] RecordFile(ServiceRecordFile record)
    {
        using var bytes = new MemoryStream();
        record.Write(bytes);
        return bytes.ToArray();
    }
}

/// <summary>Events of a store's service journal, each as the JSON text that the device wrote.</summary>
/// <param name="Events">In any order.</param>
internal sealed record FindingBatch(IReadOnlyList<string?>? Events);
