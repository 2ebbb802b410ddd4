using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>The usual cautions, at the work they belong to. Texts and their sources: docs/sheets.md.</summary>
internal static class CautionNotes
{
    private const string Ammonia = "R-717";
    private const int MostHolders = 6;

    /// <summary>Cautions for walking and probing.</summary>
    public static IEnumerable<FlowItem> Walking(Plan plan, Words words) =>
        Items(words, [.. Texts(words, "caution.public", "caution.fans", "caution.probe", "caution.food", "caution.walk-in"), .. Gases(plan, words), words["caution.qualified"]]);

    /// <summary>The few that a map carries, after what its readings call for.</summary>
    public static IEnumerable<FlowItem> Map(Plan plan, Words words, IEnumerable<string> first) =>
        Items(words, [.. first, .. Gases(plan, words), .. Texts(words, "caution.fans", "caution.qualified")]);

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
    /// <param name="gases">The refrigerants.</param>
    /// <param name="words">The words.</param>
    /// <param name="where">What holds a refrigerant, for those that burn; null to leave it out.</param>
    public static IEnumerable<string> Gases(IReadOnlyCollection<Refrigerant> gases, Words words, Func<string, IReadOnlyList<string>>? where = null)
    {
        if (gases.Any(g => g.Name == Ammonia)) yield return words["caution.ammonia"];
        if (gases.Any(g => g.Name == "R-744")) yield return words["caution.co2"];
        var flammable = gases.Where(g => g.Flammable && g.Name != Ammonia).Select(g => g.Name).Distinct().Order(StringComparer.Ordinal).ToList();
        if (flammable.Count > 0) yield return words.Say("caution.flammable", string.Join(", ", flammable.Select(Named)));

        string Named(string gas) => where?.Invoke(gas) is { Count: > 0 } holders ? $"{gas} ({Listing.Of(holders, MostHolders, words)})" : gas;
    }

    /// <summary>The same for all of a store's, and the monitor for want of oxygen, which any of them calls for in a closed room.</summary>
    private static IEnumerable<string> Gases(Plan plan, Words words)
    {
        List<(string Holder, Refrigerant? Gas)> held =
        [
            .. plan.Systems.Select(s => (words.Say("caution.system", s.Id), Refrigerant.Find(s.Refrigerant))),
            .. plan.Fixtures.Select(f => (f.Tag, Refrigerant.Find(f.Refrigerant))),
        ];
        return Gases([.. held.Select(h => h.Gas).OfType<Refrigerant>()], words, gas => [.. held.Where(h => h.Gas?.Name == gas).Select(h => h.Holder)])
            .Append(words["caution.oxygen"]);
    }

    private static IEnumerable<string> Texts(Words words, params string[] keys) => keys.Select(key => words[key]);

    private static IEnumerable<FlowItem> Items(Words words, IEnumerable<string> texts) =>
        texts.Select(NoteItems.Caution).Prepend(NoteItems.Heading(words["caution.heading"]));
}
