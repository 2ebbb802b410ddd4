using System.Text.Json;
using StoreMap.Web.Solving;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Desk;

/// <summary>What the map page asks of the engine. A question asked in the same words twice is worked out once.</summary>
/// <param name="Layers">Names of the layers drawn.</param>
/// <param name="Full">True for the heat map as printed, false for the quick one.</param>
/// <param name="Viridis">True for the colours of viridis, false for those of cividis.</param>
/// <param name="Zoom">How near it is looked at; 1 shows all of it.</param>
public sealed record MapQuestion(IEnumerable<string> Layers, bool Full = false, bool Viridis = false, int Zoom = 1)
{
    /// <summary>The method that answers it.</summary>
    public const string Method = "DeskWork.Map";

    /// <summary>Layers that are on at first.</summary>
    public static IReadOnlyList<string> FirstLayers { get; } = ["HeatMap", "Uncertainty", "Readings", "Zones"];

    /// <summary>Has the first map of a visit, still without leak zones, drawn before it is asked for; where this device kept it, what a map with one
    /// reading more rests on.</summary>
    /// <param name="engine">The engine.</param>
    /// <param name="store">The store.</param>
    /// <param name="survey">The visit.</param>
    /// <param name="lengths">The unit in which lengths are shown.</param>
    public static async Task Ahead(EngineRoom engine, DeskStore store, SurveyRecord survey, string lengths)
    {
        await engine.Ahead(Method, await new MapQuestion(FirstLayers).Words(store, store.SameDay(survey), lengths, false));
        await engine.Ready("DeskWork.Ready", store.Record.Document, lengths, await store.Pack(store.SameDay(survey)));
    }

    /// <summary>The question in words, as wide as <see cref="PictureView.Room"/> is on the page.</summary>
    /// <param name="store">The store.</param>
    /// <param name="visits">The visits that the map rests on, the one shown last.</param>
    /// <param name="lengths">The unit in which lengths are shown.</param>
    /// <param name="locate">False to have the picture before the leak zones are worked out.</param>
    public async Task<string[]> Words(DeskStore store, IEnumerable<SurveyRecord> visits, string lengths, bool locate)
    {
        var packed = await store.Pack(visits);
        var options = JsonSerializer.Serialize(new MapOptions(PictureView.RoomMillimetres(Zoom), string.Join(' ', Layers), Full, locate, Viridis: Viridis), DeskJson.Plain.MapOptions);
        return [store.Record.Document, lengths, packed, options];
    }
}
