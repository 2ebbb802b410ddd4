using StoreMap.Data;
using StoreMap.Surveys;

namespace StoreMap.App.Serving;

/// <summary>The story of a store's findings, entry by entry.</summary>
internal static class FindingsApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/stores/{store}/findings", (string store, Findings findings) => findings.Of(store)).WithSummary("All entries, with who and when.");
        api.MapPost("/stores/{store}/findings", Add).WithSummary("Adds an entry; sent again it changes nothing.");
    }

    private static IResult Add(string store, NewFindingEntry entry, HttpContext context, Findings findings, Layouts layouts)
    {
        if (layouts.Latest(store) is null) return Results.NotFound(new ApiProblem("store", "There is no such store."));
        if (!JournalEvent.IsId(entry.Id) || !JournalEvent.IsId(entry.Finding) || entry.Document is not { Length: > 0 and <= JournalEvent.MostCharacters })
            return Results.BadRequest(new ApiProblem("finding", "An entry needs its own id, the finding's id and a text of at most 16,384 characters."));
        return findings.Add(store, entry.Id!, entry.Finding!, entry.Document, SignInCookie.NameOf(context))
            ? Results.NoContent()
            : Results.Conflict(new ApiProblem("finding", "This entry is known with another content. The first stays; add a new entry."));
    }
}

/// <summary>An entry as a client sends it.</summary>
internal sealed record NewFindingEntry(string? Id, string? Finding, string? Document);
