namespace StoreMap.App.Serving;

/// <summary>The client's files, as the build lists them; any other address that is no file opens the client.</summary>
internal static class ClientFiles
{
    public static void Map(WebApplication app)
    {
        app.MapStaticAssets(Path.Combine(AppContext.BaseDirectory, "storemap.staticwebassets.endpoints.json"));
        app.MapFallbackToFile("index.html");
    }
}
