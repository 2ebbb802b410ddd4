using System.Globalization;
using StoreMap.App.Shell;
using StoreMap.Data;
using StoreMap.Plans;

namespace StoreMap.App.Serving;

/// <summary>Stores and their layouts.</summary>
internal static class StoresApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/stores", (Layouts layouts) => layouts.Stores()).WithSummary("All stores.");
        api.MapGet("/stores/{store}/layout", Get).WithSummary("The latest layout, its version as ETag; with ?version= an older one.");
        api.MapPut("/stores/{store}/layout", Put).WithSummary("Saves a layout. If-Match names the version it was made from; a new store has none.");
    }

    private static IResult Get(string store, int? version, Layouts layouts, HttpContext context)
    {
        if ((version is { } v ? layouts.At(store, v) : layouts.Latest(store)) is not { } row) return Results.NotFound(new ApiProblem("store", "There is no such store or version."));
        context.Response.Headers.ETag = Tag(row.Version);
        return Results.Text(row.Document, "application/json");
    }

    private static async Task<IResult> Put(string store, HttpContext context, Layouts layouts)
    {
        var match = context.Request.Headers.IfMatch.ToString();
        var madeFrom = 0;
        if (match.Length > 0 && !int.TryParse(match.Trim('"'), CultureInfo.InvariantCulture, out madeFrom)) return Results.BadRequest(new ApiProblem("if-match", "If-Match must be the ETag of the version this was made from."));
        if (madeFrom > 0 && !context.User.IsInRole(SignInCookie.Office)) return Results.Json(new ApiProblem("role", "Only someone with the role office may change a layout."), statusCode: StatusCodes.Status403Forbidden);
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body, context.RequestAborted);
        body.Position = 0;
        var problems = LayoutDocument.TryRead(body, null, out var document);
        if (document is null) return Results.BadRequest(new { errors = ProblemJson.Array(problems) });
        if (document.Plan.Id != store) return Results.BadRequest(new ApiProblem("store", $"The layout is of {document.Plan.Id}, not of {store}."));
        using var text = new MemoryStream();
        document.Write(text);
        var saved = layouts.Save(store, document.Plan.Name, System.Text.Encoding.UTF8.GetString(text.ToArray()), madeFrom, SignInCookie.NameOf(context));
        if (saved is null)
        {
            var latest = layouts.Latest(store);
            return Results.Json(
                new LayoutConflict("version", "Someone saved this layout since. Look at both, then save again from the latest.", latest?.Version ?? 0, latest?.SavedBy, latest?.Saved),
                statusCode: StatusCodes.Status412PreconditionFailed);
        }

        context.Response.Headers.ETag = Tag(saved.Version);
        return Results.Ok(new { version = saved.Version, warnings = ProblemJson.Array(problems) });
    }

    private static string Tag(int version) => $"\"{version.ToString(CultureInfo.InvariantCulture)}\"";
}

/// <summary>Someone else saved first.</summary>
internal sealed record LayoutConflict(string Rule, string Message, int Version, string? SavedBy, DateTimeOffset? Saved);
