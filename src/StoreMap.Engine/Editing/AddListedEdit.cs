using System.Text.Json.Nodes;

namespace StoreMap.Editing;

/// <summary>Adds the fixtures of a case list, beside the store at the head of its plan, to be dragged in; with them the circuits and systems
/// that the store does not have yet.</summary>
/// <param name="Listed">The layout that the list makes, in this layout's unit.</param>
public sealed record AddListedEdit(JsonObject Listed) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        foreach (var list in (string[])["circuits", "systems"])
        {
            if (layout.Root[list] is not JsonArray here) layout.Root[list] = here = [];
            var known = here.Select(e => (string?)e?["id"]).ToHashSet();
            foreach (var element in Listed[list]!.AsArray().Where(e => known.Add((string?)e!["id"]))) here.Add(element!.DeepClone());
        }

        List<JsonObject> fixtures = [.. Listed["fixtures"]!.AsArray().Select(f => f!.DeepClone().AsObject())];
        if (LayoutElementsJson.Box(fixtures) is not var (left, low, _, _)) return [];
        var (x, y) = LayoutElementsJson.Box([new JsonObject { ["outline"] = layout.Root["outline"]!.DeepClone() }]) is var (x0, y0, _, y1) ? (x0, y1 + ((y1 - y0) * 0.05)) : (left, low);
        return [.. fixtures.Select(fixture =>
        {
            LayoutElementsJson.Map(fixture, (u, v) => (u - left + x, v - low + y));
            return layout.Add("fixtures", fixture);
        })];
    }
}
