using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>Puts a fixture on a circuit, and adds that to the plan when it is new, with its system when that is new too.</summary>
/// <param name="Id">The fixture.</param>
/// <param name="Circuits">A circuit's id, or one for each section with <c>/</c> between them as in a case list; empty for none.</param>
/// <param name="System">Id of the system of circuits that are new; null when none is.</param>
/// <param name="Refrigerant">What a new system is charged with; null when it is not new.</param>
public sealed record SetCircuitEdit(string Id, string Circuits, string? System = null, string? Refrigerant = null) : LayoutEdit
{
    private string[] Typed => Circuits.Split('/', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);

    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (layout.Find(Id) is not ("fixtures", var fixture) || Refusal(layout.Root) is not null) return [];
        if (NewSystem(layout.Root) is { } system) Add(layout.Root, LayoutLists.Systems, new JsonObject { ["id"] = system, ["refrigerant"] = Plans.Refrigerant.Find(Refrigerant)?.Name ?? Refrigerant!.Trim() });
        foreach (var circuit in NewCircuits(layout.Root)) Add(layout.Root, LayoutLists.Circuits, new JsonObject { ["id"] = circuit, ["system"] = System!.Trim() });
        if (Typed.Length == 0) fixture.Remove("circuit");
        else fixture["circuit"] = Typed.Length == 1 ? Typed[0] : new JsonArray([.. Typed.Select(c => (JsonNode)c)]);
        return [Id];
    }

    /// <summary>Circuits that the plan does not have yet.</summary>
    /// <param name="layout">The layout.</param>
    public IReadOnlyList<string> NewCircuits(JsonObject layout) => [.. Typed.Distinct().Except(Ids(layout, LayoutLists.Circuits))];

    /// <summary>The system of new circuits when the plan does not have it yet; else null.</summary>
    /// <param name="layout">The layout.</param>
    public string? NewSystem(JsonObject layout) =>
        NewCircuits(layout).Count > 0 && System?.Trim() is { Length: > 0 } system && !Ids(layout, LayoutLists.Systems).Contains(system) ? system : null;

    /// <summary>Why it can't be done, for people, with what to do; null when it can.</summary>
    /// <param name="layout">The layout.</param>
    public string? Refusal(JsonObject layout)
    {
        var circuits = NewCircuits(layout);
        if (circuits.Count == 0) return null;
        var system = NewSystem(layout);
        foreach (var id in system is null ? circuits : circuits.Append(system))
        {
            if (!LayoutElements.IsId(id)) return $"{id} can't be an id; it is 1 to 32 of A–Z a–z 0–9 . _ - without spaces.";
            if (LayoutLists.All.Any(l => Ids(layout, l).Contains(id))) return $"The id {id} is another thing's in this plan; write the circuit or system otherwise, such as {id}-1.";
        }

        if (string.IsNullOrWhiteSpace(System)) return $"The plan has no circuit {circuits[0]} yet; say which system it belongs to.";
        if (system is null) return null;
        if (circuits.Contains(system)) return $"A circuit and a system can't both be {system}; write one of them otherwise, such as {system}1.";
        return string.IsNullOrWhiteSpace(Refrigerant) ? $"The plan has no system {system} yet; say its refrigerant, such as R-448A." : null;
    }

    /// <summary>Ids of a list, such as <c>circuits</c> or <c>systems</c>.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="list">The list.</param>
    public static IEnumerable<string> Ids(JsonObject layout, string list) =>
        (layout[list] as JsonArray ?? []).OfType<JsonObject>().Select(e => e["id"].Text()).OfType<string>();

    private static void Add(JsonObject root, string list, JsonObject element)
    {
        if (root[list] is not JsonArray array) root[list] = array = [];
        array.Add((JsonNode)element);
    }
}
