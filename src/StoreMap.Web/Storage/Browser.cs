using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace StoreMap.Web.Storage;

/// <summary>What only the browser can do, each a function of <c>wwwroot/js</c>.</summary>
[SupportedOSPlatform("browser")]
internal static partial class Browser
{
    /// <summary>Loads the modules; once, before anything else.</summary>
    public static async Task Load()
    {
        await JSHost.ImportAsync("storage", "/js/storage.js");
        await JSHost.ImportAsync("device", "/js/device.js");
        await JSHost.ImportAsync("engine", "/js/engine.js");
    }

    [JSImport("open", "storage")]
    public static partial Task OpenDatabase();

    [JSImport("get", "storage")]
    public static partial Task<string> Get(string store, string id);

    [JSImport("all", "storage")]
    public static partial Task<string> All(string store);

    [JSImport("put", "storage")]
    public static partial Task Put(string store, string record);

    [JSImport("addEvent", "storage")]
    public static partial Task AddEvent(string id, string survey, string text);

    [JSImport("eventsOf", "storage")]
    public static partial Task<string> EventsOf(string survey);

    [JSImport("unsentOf", "storage")]
    public static partial Task<string> UnsentOf(string survey, int most);

    [JSImport("unsentCount", "storage")]
    public static partial Task<int> UnsentCount();

    [JSImport("markSent", "storage")]
    public static partial Task MarkSent(string ids, bool refused);

    [JSImport("receive", "storage")]
    public static partial Task<int> Receive(string survey, string texts);

    [JSImport("restore", "storage")]
    public static partial Task<int> Restore(string survey, string texts);

    [JSImport("mark", "storage")]
    public static partial string Mark(string device);

    [JSImport("persist", "storage")]
    public static partial Task<string> Persist();

    [JSImport("theme", "device")]
    public static partial void Theme(string name);

    [JSImport("themeName", "device")]
    public static partial string ThemeName();

    [JSImport("keepAwake", "device")]
    public static partial Task KeepAwake(bool on);

    [JSImport("cue", "device")]
    public static partial void Cue(string kind);

    [JSImport("download", "device")]
    public static partial void Download(string name, string type, string text);

    [JSImport("focus", "device")]
    public static partial void Focus(string id);

    [JSImport("offlineState", "device")]
    public static partial string OfflineState();

    [JSImport("online", "device")]
    public static partial bool Online();

    [JSImport("onConnection", "device")]
    public static partial void OnConnection([JSMarshalAs<JSType.Function<JSType.Boolean>>] Action<bool> callback);

    [JSImport("onKeys", "device")]
    public static partial void OnKeys([JSMarshalAs<JSType.Function<JSType.String, JSType.Boolean>>] Func<string, bool>? callback);

    [JSImport("onUpdate", "device")]
    public static partial Task OnUpdate([JSMarshalAs<JSType.Function>] Action callback);

    [JSImport("update", "device")]
    public static partial Task Update();

    [JSImport("solve", "engine")]
    public static partial Task<string> Solve(string method, string layout, string survey);
}
