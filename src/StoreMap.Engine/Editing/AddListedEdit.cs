using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>Something a case list says otherwise than the store it is added to; the store's stays.</summary>
/// <param name="List"><c>circuits</c> or <c>systems</c>.</param>
/// <param name="Id">Id of the circuit or system.</param>
/// <param name="Field">What differs: a circuit's <c>system</c>, a system's <c>refrigerant</c>.</param>
/// <param name="Here">As the store has it; null when it does not say.</param>
/// <param name="Listed">As the list has it.</param>
public sealed record ListConflict(string List, string Id, string Field, string? Here, string Listed);

/// <summary>Adds the fixtures of a case list, beside the store at the head of its plan, to be dragged in; with them the circuits and systems
/// that the store does not have yet. Those it has stay as they are; see <see cref="Conflicts"/>.</summary>
/// <param name="Listed">The layout that the list makes, in this layout's unit.</param>
public sealed record AddListedEdit(JsonObject Listed) : LayoutEdit
{
    private static readonly (string List, string Field)[] Plant = [("circuits", "system"), ("systems", "refrigerant")];

    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        foreach (var (list, _) in Plant)
        {
            var here = layout.Root[list] as JsonArray ?? [];
            var known = here.Select(Id).ToHashSet();
            var added = Of(Listed, list).Where(e => known.Add(Id(e))).ToList();
            if (added.Count > 0 && here.Parent is null) layout.Root[list] = here;
            foreach (var element in added) here.Add(element!.DeepClone());
        }

        List<JsonObject> fixtures = [.. Listed["fixtures"]!.AsArray().Select(f => f!.DeepClone().AsObject())];
        if (LayoutElementsJson.Box(fixtures) is not var (left, low, _, _)) return [];
        var (x, y) = LayoutElementsJson.StoreBox(layout.Root) is var (x0, y0, _, y1) ? (x0, y1 + ((y1 - y0) * 0.05)) : (left, low);
        return [.. fixtures.Select(fixture =>
        {
            LayoutElementsJson.Map(fixture, (u, v) => (u - left + x, v - low + y));
            return layout.Add("fixtures", fixture);
        })];
    }

    /// <summary>What the list says otherwise than a layout it is to be added to, all at once.</summary>
    /// <param name="layout">The layout.</param>
    public IReadOnlyList<ListConflict> Conflicts(JsonObject layout) =>
    [
        .. from plant in Plant
           from listed in Of(Listed, plant.List)
           let said = (listed as JsonObject)?[plant.Field].Text()
           let here = Of(layout, plant.List).FirstOrDefault(e => Id(e) is { } id && id == Id(listed)) as JsonObject
           where said is not null && here is not null && here[plant.Field].Text() != said
           select new ListConflict(plant.List, Id(listed)!, plant.Field, here[plant.Field].Text(), said),
    ];

    /// <summary>Tags of the list that the layout's fixtures have already.</summary>
    /// <param name="layout">The layout.</param>
    public IReadOnlyList<string> TagsThere(JsonObject layout) =>
        [.. Of(Listed, "fixtures").Select(f => f?["tag"].Text()).OfType<string>().Where(t => new LayoutElementsJson(layout).HasTag(t))];

    private static JsonArray Of(JsonObject layout, string list) => layout[list] as JsonArray ?? [];

    private static string? Id(JsonNode? element) => (element as JsonObject)?["id"].Text();
}
