using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace StoreMap.Web.Storage;

/// <summary>What only the browser can do, each a function of <c>wwwroot/js</c>.</summary>
[SupportedOSPlatform("browser")]
internal static partial class Browser
{
    private static readonly string[] Modules = ["storage", "photos", "underlay", "device", "engine"];

    /// <summary>Loads the modules; once, before anything else.</summary>
    public static Task Load() => Task.WhenAll(Modules.Select(name => JSHost.ImportAsync(name, $"/js/{name}.js")));

    [JSImport("open", "storage")]
    public static partial Task OpenDatabase();

    [JSImport("get", "storage")]
    public static partial Task<string> Get(string store, string id);

    [JSImport("all", "storage")]
    public static partial Task<string> All(string store);

    [JSImport("put", "storage")]
    public static partial Task Put(string store, string record);

    /// <summary>Puts a record in place of what was read before; false when that is there no more.</summary>
    [JSImport("swap", "storage")]
    public static partial Task<bool> Swap(string store, string before, string record);

    [JSImport("addEvent", "storage")]
    public static partial Task AddEvent(string id, string survey, string text);

    [JSImport("eventsOf", "storage")]
    public static partial Task<string> EventsOf(string survey);

    /// <summary>Journals as the worker takes them; see <c>DeskStore.Pack</c>. They are put together where they are kept, for they are long.</summary>
    [JSImport("pack", "storage")]
    public static partial Task<string> Pack(string visits, string store);

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

    /// <summary>Wipes all that this device keeps and leaves the page with a word about it.</summary>
    [JSImport("wipe", "storage")]
    public static partial Task Wipe(string words);

    [JSImport("persist", "storage")]
    public static partial Task<string> Persist();

    /// <summary>Makes the picture chosen in an input one that can lie under a plan: a <see cref="PreparedUnderlay"/>.</summary>
    [JSImport("prepare", "underlay")]
    public static partial Task<string> PrepareUnderlay(string input);

    /// <summary>Draws a picture anew by a perspective map from its new dots to its old ones.</summary>
    [JSImport("warp", "underlay")]
    public static partial Task<string> WarpUnderlay(string picture, double[] map, int across, int down);

    /// <summary>Makes the picture chosen in an input small and plain; gives what is wrong with it, or nothing.</summary>
    [JSImport("prepare", "photos")]
    public static partial Task<string> PreparePhoto(string input);

    /// <summary>Keeps the prepared picture together with the entry that tells of it.</summary>
    [JSImport("keepPhoto", "photos")]
    public static partial Task KeepPhoto(string id, string eventId, string survey, string text);

    [JSImport("unsentPhotos", "photos")]
    public static partial Task<string> UnsentPhotos(string survey);

    /// <summary>Sends a photo to a place of the server, such as <c>surveys/20260804-5f</c>.</summary>
    [JSImport("sendPhoto", "photos")]
    public static partial Task<int> SendPhoto(string id, string place, string device);

    [JSImport("photoDone", "photos")]
    public static partial Task PhotoDone(string id, bool refused);

    [JSImport("photoUrl", "photos")]
    public static partial Task<string> PhotoUrl(string place, string id);

    [JSImport("photosOf", "photos")]
    public static partial Task<string> PhotosOf(string survey);

    [JSImport("restorePhotos", "photos")]
    public static partial Task RestorePhotos(string survey, string photos);

    [JSImport("theme", "device")]
    public static partial void Theme(string name);

    [JSImport("themeName", "device")]
    public static partial string ThemeName();

    [JSImport("keepAwake", "device")]
    public static partial Task KeepAwake(bool on);

    [JSImport("readySound", "device")]
    public static partial void ReadySound();

    [JSImport("cue", "device")]
    public static partial void Cue(string kind);

    [JSImport("download", "device")]
    public static partial void Download(string name, string type, string text);

    [JSImport("downloadBytes", "device")]
    public static partial void Download(string name, string type, byte[] bytes);

    [JSImport("downloadPng", "device")]
    public static partial Task DownloadPng(string name, string svg, double width, double height, double dotsPerInch);

    /// <summary>Shows a drawing inside an element.</summary>
    [JSImport("show", "device")]
    public static partial void Show(string id, string svg);

    [JSImport("addFace", "device")]
    public static partial void AddFace(string family, string weight, byte[] bytes);

    /// <summary>Gives each sheet paper of its own size, whichever way printing is asked for.</summary>
    /// <param name="sizes">A JSON list of class, width and height of its sheets, millimetres.</param>
    [JSImport("papers", "device")]
    public static partial void Papers(string sizes);

    /// <summary>Prints the page.</summary>
    [JSImport("print", "device")]
    public static partial void Print();

    /// <summary>Where a press lies in an element, in parts of its width and height.</summary>
    [JSImport("inside", "device")]
    public static partial double[] Inside(string id, double clientX, double clientY);

    /// <summary>Width of an element inside its border, CSS pixels.</summary>
    [JSImport("width", "device")]
    public static partial double Width(string id);

    /// <summary>Scrolls the page to its top.</summary>
    [JSImport("toTop", "device")]
    public static partial void ToTop();

    [JSImport("focus", "device")]
    public static partial void Focus(string id);

    [JSImport("offlineState", "device")]
    public static partial string OfflineState();

    [JSImport("online", "device")]
    public static partial bool Online();

    /// <summary>Keeps what was in the middle of a scrolled picture there when it was made so many times as large.</summary>
    [JSImport("nearer", "device")]
    public static partial void Nearer(string id, double times);

    /// <summary>Brings a part of a scrolled drawing into sight.</summary>
    /// <param name="id">Id of an element in or of the drawing.</param>
    /// <param name="part">A selector.</param>
    /// <param name="page">True to scroll the page too, where the drawing is off it.</param>
    [JSImport("reveal", "device")]
    public static partial void Reveal(string id, string part, bool page);

    [JSImport("onConnection", "device")]
    public static partial void OnConnection([JSMarshalAs<JSType.Function<JSType.Boolean>>] Action<bool> callback);

    [JSImport("onKeys", "device")]
    public static partial void OnKeys([JSMarshalAs<JSType.Function<JSType.String, JSType.String, JSType.Boolean>>] Func<string, string, bool>? callback);

    [JSImport("onUpdate", "device")]
    public static partial Task OnUpdate([JSMarshalAs<JSType.Function>] Action callback);

    [JSImport("update", "device")]
    public static partial Task Update();

    /// <summary>Work of the engine in a worker of its own; see <c>wwwroot/js/engine.js</c>.</summary>
    [JSImport("run", "engine")]
    public static partial Task<string> Run(
        string worker, string method, string[] args, [JSMarshalAs<JSType.Function<JSType.Number, JSType.String>>] Action<double, string> progress);

    /// <summary>The same, kept for the next time that it is asked.</summary>
    [JSImport("runOnce", "engine")]
    public static partial Task<string> RunOnce(
        string worker, string version, string method, string[] args, [JSMarshalAs<JSType.Function<JSType.Number, JSType.String>>] Action<double, string> progress);

    /// <summary>What such an answer was; empty when it is not kept.</summary>
    [JSImport("keptOf", "engine")]
    public static partial Task<string> KeptOf(string version, string method, string[] args);

    [JSImport("cancel", "engine")]
    public static partial void Cancel(string worker);
}
