using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>What a case says of its sections, taken along when they change.</summary>
/// <param name="fixture">The case as the file has it; changed.</param>
/// <param name="unit">The file's unit.</param>
internal sealed class SectionFields(JsonObject fixture, LengthUnit unit)
{
    // Room for the rounding of lengths in the file.
    private const double Near = 1e-3;

    /// <summary>Makes the fields fit the new sections.</summary>
    /// <param name="change">Which sections stay.</param>
    /// <param name="was">Lengths before.</param>
    /// <param name="now">Lengths after.</param>
    public void Follow(SectionChange change, IReadOnlyList<double> was, IReadOnlyList<double> now)
    {
        Panels(change, was, now);
        Drains(change);
        foreach (var field in (string[])["circuit", "coils"])
        {
            if (fixture[field] is not JsonArray each || each.Count != was.Count || each[0] is JsonArray) continue;
            fixture[field] = new JsonArray([.. change.FromOrBeside.Select(i => each[i]?.DeepClone())]);
        }

        var written = fixture["sections"] as JsonArray;
        fixture["sections"] = new JsonArray([.. now.Select((length, i) => change.From[i] is { } k && length == was[k] && written is { Count: > 0 } ? written[k]!.DeepClone() : LayoutElementsJson.Number(length))]);
    }

    private void Drains(SectionChange change)
    {
        if (fixture["drains"] is not JsonArray drains) return;
        Set("drains", [.. drains.Select(d => change.Place((double)d!)).OfType<double>().Select(LayoutElementsJson.Number)]);
    }

    private void Panels(SectionChange change, IReadOnlyList<double> was, IReadOnlyList<double> now)
    {
        if (fixture["panels"] is not JsonArray { Count: > 0 } panels) return;
        if (panels[0] is JsonObject) Set("panels", [.. panels.OfType<JsonObject>().Select(p => Placed(p, change)).OfType<JsonObject>()]);
        else Set("panels", Split([.. panels.Select(p => (double)p!)], change, was, now));
    }

    // A panel of which nothing to speak of is left is gone.
    private JsonObject? Placed(JsonObject panel, SectionChange change)
    {
        if (change.Place((double)panel["from"]!) is not { } from || change.Place((double)panel["to"]!, true) is not { } to) return null;
        if ((to - from) * unit.InMetres() < PanelReader.ShortestPanel + Near) return null;
        var placed = panel.DeepClone().AsObject();
        (placed["from"], placed["to"]) = (LayoutElementsJson.Number(from), LayoutElementsJson.Number(to));
        return placed;
    }

    // Lengths over the whole front, or over each section; those of a section that does not stay as it was are split anew.
    private List<JsonNode> Split(IReadOnlyList<double> lengths, SectionChange change, IReadOnlyList<double> was, IReadOnlyList<double> now)
    {
        if (now.All(s => Math.Abs(lengths.Sum() - s) < Near)) return [.. lengths.Select(LayoutElementsJson.Number)];
        var each = was.Select(s => Math.Abs(lengths.Sum() - s) < Near).All(fits => fits) ? [.. was.Select(_ => lengths)] : BySection(lengths, was);
        if (each is null || !Enumerable.Range(0, now.Count).Any(change.IsWhole)) return [];
        return [.. Enumerable.Range(0, now.Count).SelectMany(i => change.IsWhole(i) ? each[change.From[i]!.Value] : Usual(now[i])).Select(LayoutElementsJson.Number)];
    }

    private IEnumerable<double> Usual(double section)
    {
        var parts = Math.Max(1, (int)Math.Ceiling((section * unit.InMetres() / PanelReader.DefaultPanel) - Near));
        return Enumerable.Repeat(section / parts, parts);
    }

    private static List<IReadOnlyList<double>>? BySection(IReadOnlyList<double> lengths, IReadOnlyList<double> sections)
    {
        List<IReadOnlyList<double>> each = [];
        var next = 0;
        foreach (var section in sections)
        {
            List<double> here = [];
            while (next < lengths.Count && here.Sum() < section - Near) here.Add(lengths[next++]);
            if (Math.Abs(here.Sum() - section) >= Near) return null;
            each.Add(here);
        }

        return each;
    }

    private void Set(string field, List<JsonNode> values)
    {
        if (values.Count > 0) fixture[field] = new JsonArray([.. values]);
        else fixture.Remove(field);
    }
}
