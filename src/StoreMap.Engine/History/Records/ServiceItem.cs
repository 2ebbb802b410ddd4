using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.History;

/// <summary>One element of a service record's lists on its way from the journal into the file.</summary>
/// <param name="List"><c>entries</c> or <c>movements</c>.</param>
/// <param name="Json">The element, in the file's units.</param>
/// <param name="Event">The event it came by; null for a panel.</param>
/// <param name="Panel">The panel it came by; null for an event.</param>
internal sealed record ServiceItem(string List, JsonObject Json, JournalEvent? Event, FoundPanel? Panel)
{
    public const string Entries = "entries", Movements = "movements";

    public string Date => Json["date"].Text() ?? "";

    /// <summary>True for what was read in from a file rather than noted by a device.</summary>
    public bool IsOfFile => Event?.Device == JournalEvent.FileDevice;

    /// <summary>What an event carries, in the units of a file.</summary>
    public static IEnumerable<ServiceItem> Of(JournalEvent e, JsonObject file)
    {
        if (e.Body["entry"] is JsonObject entry) yield return new ServiceItem(Entries, Scaled(entry, Lengths(e.Body) / Lengths(file), "at"), e, null);
        if (e.Body["movement"] is JsonObject movement) yield return new ServiceItem(Movements, Scaled(movement, Weights(e.Body) / Weights(file), "added", "recovered"), e, null);
    }

    /// <summary>Leaves out elements of a file that an entry or a panel tells as well, or told before it was taken back: the file was written from them.</summary>
    public static List<ServiceItem> Once(IReadOnlyList<ServiceItem> items, IEnumerable<ServiceItem> takenBack)
    {
        var said = items.Concat(takenBack).Where(i => !i.IsOfFile).GroupBy(i => i.Content).ToDictionary(g => g.Key, g => g.Count(), StringComparer.Ordinal);
        return [.. items.Where(i => !i.IsOfFile || said.GetValueOrDefault(i.Content) == 0 || said[i.Content]-- <= 0)];
    }

    private string Content => List + Json.ToJsonString();

    private static JsonObject Scaled(JsonObject from, double factor, params ReadOnlySpan<string> fields)
    {
        var json = from.DeepClone().AsObject();
        if (factor == 1) return json;
        foreach (var field in fields)
        {
            if (json[field] is JsonValue v && v.GetValueKind() == JsonValueKind.Number) json[field] = (double)v * factor;
        }

        return json;
    }

    private static double Lengths(JsonObject of) => (LengthUnits.FromSymbol(of["units"].Text()) ?? LengthUnit.Metre).InMetres();

    private static double Weights(JsonObject of) => of["weightUnit"].Text() == "lb" ? LengthUnits.KilogramsPerPound : 1;
}
