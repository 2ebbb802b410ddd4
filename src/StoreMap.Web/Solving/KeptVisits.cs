using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;
using System.Text.Json;
using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Web.Solving;

/// <summary>What was located at visits, kept on this device beside whole answers: no restart, and no other view of a visit, costs it again.
/// See <c>wwwroot/js/answers.js</c>.</summary>
[SupportedOSPlatform("browser")]
internal static partial class KeptVisits
{
    private const string Kind = "visits";

    /// <summary>All that the leak zones of the last of some visits hang on.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="shown">The unit in which their reasons are told.</param>
    /// <param name="visits">Readings of each visit, oldest first, and what was known of panels and from the service record.</param>
    public static string[] Question(string layout, LengthUnit shown, IEnumerable<(string Readings, string Checks)> visits) =>
        [EngineRoom.Version, layout, shown.Symbol(), .. visits.SelectMany(v => new[] { v.Readings, v.Checks })];

    /// <summary>What was located; null where nothing is kept.</summary>
    public static async Task<LocateResult?> Recall(string[] question)
    {
        var text = await Recall(Kind, question);
        try
        {
            return text.Length == 0 ? null : LocateText.Read(text);
        }
        catch (JsonException)
        {
            // Cut short, as by a device that went off: located again, and kept anew.
            return null;
        }
    }

    /// <summary>Keeps what was located; without room for it nothing is kept.</summary>
    public static Task Keep(string[] question, LocateResult result) => Keep(Kind, question, LocateText.Write(result));

    [JSImport("recall", "worker")]
    private static partial Task<string> Recall(string kind, string[] parts);

    [JSImport("keep", "worker")]
    private static partial Task Keep(string kind, string[] parts, string text);
}
