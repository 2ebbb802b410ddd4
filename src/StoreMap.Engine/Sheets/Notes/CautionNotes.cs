using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The usual cautions, at the work they belong to. Texts and their sources: docs/sheets.md.</summary>
internal static class CautionNotes
{
    private const string Ammonia = "R-717";

    /// <summary>Cautions for walking and probing.</summary>
    public static IEnumerable<FlowItem> Walking(Plan plan, Words words) =>
        Items(words, [.. Texts(words, "caution.public", "caution.fans", "caution.probe", "caution.food", "caution.walk-in"), .. Gases(plan, words), words["caution.qualified"]]);

    /// <summary>The few that a map carries.</summary>
    public static IEnumerable<FlowItem> Map(Plan plan, Words words) =>
        Items(words, [.. Gases(plan, words), .. Texts(words, "caution.fans", "caution.qualified")]);

    /// <summary>Cautions for opening a fixture.</summary>
    public static IEnumerable<FlowItem> Opening(Words words, string? refrigerant) =>
        Items(words,
        [
            .. Texts(words, "caution.fans", "caution.lock-out", "caution.electric", "caution.stop-fans", "caution.product", "caution.edges"),
            .. Gases(Refrigerant.Find(refrigerant) is { } gas ? [gas] : [], words), .. Texts(words, "caution.heat", "caution.qualified"),
        ]);

    /// <summary>All of them, for the report.</summary>
    public static IEnumerable<FlowItem> All(Plan plan, Words words) => Items(words,
    [
        .. Texts(words, "caution.public", "caution.fans", "caution.probe", "caution.food", "caution.walk-in"), .. Gases(plan, words),
        .. Texts(words,
            "caution.lock-out", "caution.electric", "caution.stop-fans", "caution.product", "caution.edges", "caution.ladders", "caution.heat", "caution.pressure",
            "caution.certified", "caution.qualified"),
    ]);

    /// <summary>Which personal monitor refrigerants ask for.</summary>
    public static IEnumerable<string> Gases(IReadOnlyCollection<Refrigerant> gases, Words words)
    {
        if (gases.Any(g => g.Name == Ammonia)) yield return words["caution.ammonia"];
        if (gases.Any(g => g.Name == "R-744")) yield return words["caution.co2"];
        var flammable = gases.Where(g => g.Flammable && g.Name != Ammonia).Select(g => g.Name).Distinct().Order(StringComparer.Ordinal).ToList();
        if (flammable.Count > 0) yield return words.Say("caution.flammable", string.Join(", ", flammable));
    }

    /// <summary>The same for all of a store's, and the monitor for want of oxygen, which any of them calls for in a closed room.</summary>
    private static IEnumerable<string> Gases(Plan plan, Words words) => Gases(
        [.. plan.Systems.Select(s => s.Refrigerant).Concat(plan.Fixtures.Select(f => f.Refrigerant)).Select(Refrigerant.Find).OfType<Refrigerant>()], words).Append(words["caution.oxygen"]);

    private static IEnumerable<string> Texts(Words words, params string[] keys) => keys.Select(key => words[key]);

    private static IEnumerable<FlowItem> Items(Words words, IEnumerable<string> texts) =>
        texts.Select(NoteItems.Caution).Prepend(NoteItems.Heading(words["caution.heading"]));
}
