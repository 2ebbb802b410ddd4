using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The usual cautions, at the work they belong to. Texts and their sources: docs/sheets.md.</summary>
internal static class CautionNotes
{
    /// <summary>Cautions for walking and probing.</summary>
    public static IEnumerable<FlowItem> Walking(Plan plan, Words words) =>
        Items(words, ["caution.public", "caution.fans", "caution.probe", "caution.food", "caution.walk-in", .. Gases(plan), "caution.qualified"]);

    /// <summary>The few that a map carries.</summary>
    public static IEnumerable<FlowItem> Map(Plan plan, Words words) =>
        Items(words, [.. Gases(plan), "caution.fans", "caution.qualified"]);

    /// <summary>Cautions for opening a fixture.</summary>
    public static IEnumerable<FlowItem> Opening(Words words, string? refrigerant) =>
        Items(words, ["caution.lock-out", "caution.electric", "caution.stop-fans", "caution.product", "caution.edges", .. GasOf(Refrigerant.Find(refrigerant)), "caution.heat", "caution.qualified"]);

    /// <summary>All of them, for the report.</summary>
    public static IEnumerable<FlowItem> All(Words words) => Items(words,
    [
        "caution.public", "caution.fans", "caution.probe", "caution.food", "caution.walk-in", "caution.oxygen", "caution.co2", "caution.flammable", "caution.ammonia",
        "caution.lock-out", "caution.electric", "caution.stop-fans", "caution.product", "caution.edges", "caution.ladders", "caution.heat", "caution.pressure",
        "caution.certified", "caution.qualified",
    ]);

    /// <summary>Which personal monitor the store's refrigerants ask for.</summary>
    private static IEnumerable<string> Gases(Plan plan)
    {
        var gases = plan.Systems.Select(s => s.Refrigerant).Concat(plan.Fixtures.Select(f => f.Refrigerant))
            .Select(Refrigerant.Find).OfType<Refrigerant>().Distinct().ToList();
        return gases.SelectMany(GasOf).Append("caution.oxygen").Distinct().Order(StringComparer.Ordinal);
    }

    public static IEnumerable<string> GasOf(Refrigerant? gas)
    {
        if (gas is null) yield break;
        if (gas.Name == "R-744") yield return "caution.co2";
        if (gas.Name == "R-717") yield return "caution.ammonia";
        else if (gas.Flammable) yield return "caution.flammable";
    }

    private static IEnumerable<FlowItem> Items(Words words, IEnumerable<string> keys) =>
        keys.Select(key => NoteItems.Caution(words[key])).Prepend(NoteItems.Heading(words["caution.heading"]));
}
