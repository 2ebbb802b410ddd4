using StoreMap.Data;

namespace StoreMap.App.Serving;

/// <summary>Everything, at any time.</summary>
internal static class ExportApi
{
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/export.zip", (Layouts layouts, Journal journal, Photos photos, Findings findings) =>
            Results.File(DataExport.Zip(layouts, journal, photos, findings), "application/zip", "storemap-export.zip")).WithSummary("All layouts, surveys, journals, photos and findings as files.");
        api.MapGet("/backup.db", Backup).RequireAuthorization(SignInCookie.Office).WithSummary("A copy of the whole database.");
    }

    private static IResult Backup(StoreDatabase database)
    {
        var file = Path.Combine(Path.GetTempPath(), "storemap-" + Path.GetRandomFileName());
        database.BackUp(file);
        return Results.File(new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.None, 1 << 16, FileOptions.DeleteOnClose), "application/octet-stream", "storemap-backup.db");
    }
}
