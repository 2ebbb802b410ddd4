using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Reads what can be lifted along a case's front.</summary>
internal static class PanelReader
{
    /// <summary>Longest panel of the default split: 4 ft.</summary>
    public const double DefaultPanel = 4 * LengthUnits.MetresPerFoot;

    /// <summary>Shortest panel, metres.</summary>
    public const double ShortestPanel = 0.05;

    private const int MostPanels = 500;

    /// <summary>Minutes to open, look and close a panel that does not say (common practice).</summary>
    public static double DefaultMinutes(PanelKind kind) => kind switch
    {
        PanelKind.KickPlate => 3,
        PanelKind.ValveCover => 2,
        PanelKind.Canopy => 10,
        PanelKind.Rear => 15,
        _ => 6,
    };

    /// <summary>Reads the panels; without any, each section is split into equal parts of at most 4 ft.</summary>
    /// <param name="reader">The fixture.</param>
    /// <param name="id">Its id.</param>
    /// <param name="front">Length of its front, metres.</param>
    /// <param name="sections">Its sections, which cover the front.</param>
    /// <param name="nominal">Their stated lengths: end panels make no section need one panel more.</param>
    public static IReadOnlyList<Panel> Read(FieldReader reader, string id, double front, IReadOnlyList<Section> sections, IReadOnlyList<double> nominal)
    {
        var nodes = reader.List("panels", MostPanels);
        IReadOnlyList<Panel>? given = nodes.Count == 0 ? null : nodes[0] is JsonObject ? Objects(reader, nodes, front) : Lengths(reader, front, sections);
        var panels = given ?? Default(sections, nominal);
        return [.. panels.OrderBy(p => p.From).ThenBy(p => p.To).Select((p, i) => p with { Id = $"{id}/{i + 1}" })];
    }

    private static List<Panel> Default(IReadOnlyList<Section> sections, IReadOnlyList<double> nominal)
    {
        List<Panel> panels = [];
        for (var s = 0; s < sections.Count; s++)
        {
            var parts = Math.Max(1, (int)Math.Ceiling((nominal[s] / DefaultPanel) - LayoutLimits.Tiny));
            var (from, length) = (sections[s].From, sections[s].To - sections[s].From);
            for (var i = 0; i < parts; i++) panels.Add(DeckPan(from + (length * i / parts), i + 1 == parts ? sections[s].To : from + (length * (i + 1) / parts)));
        }

        return panels;
    }

    // Lengths cover the whole front, or one section, and are then the same in every section.
    private static IReadOnlyList<Panel>? Lengths(FieldReader reader, double front, IReadOnlyList<Section> sections)
    {
        if (SectionReader.Lengths(reader, "panels", ShortestPanel, LayoutLimits.FixtureMost) is not { } lengths) return null;
        if (LengthFit.Fits(lengths, front)) return Pieces(lengths, 0, front);
        if (sections.All(s => LengthFit.Fits(lengths, s.To - s.From))) return [.. sections.SelectMany(s => Pieces(lengths, s.From, s.To))];
        reader.Error("panels", reader["panels"], "panels-sum",
            $"The panels add up to {Say.Length(lengths.Sum(), reader.Unit)}; they must cover the front ({Say.Length(front, reader.Unit)}) or every single section.");
        return null;
    }

    private static IEnumerable<Panel> Between(double[] cuts, double from) =>
        Enumerable.Range(0, cuts.Length - 1).Select(i => DeckPan(from + cuts[i], from + cuts[i + 1]));

    private static IReadOnlyList<Panel> Pieces(IReadOnlyList<double> lengths, double from, double to) => [.. Between(LengthFit.Cuts(lengths, to - from), from)];

    private static List<Panel>? Objects(FieldReader reader, IReadOnlyList<JsonNode?> nodes, double front)
    {
        List<Panel> panels = [];
        for (var i = 0; i < nodes.Count; i++)
        {
            if (reader.NestedOf($"panels[{i}]", nodes[i]) is not { } nested) continue;
            var kind = nested.Word<PanelKind>("kind") ?? PanelKind.DeckPan;
            var minutes = nested.Number("minutes", 0.1, 480) ?? DefaultMinutes(kind);
            var from = nested.Require("from", "distance along the front") ? nested.Length("from", -LayoutLimits.Slack, front + LayoutLimits.Slack) : null;
            var to = nested.Require("to", "distance along the front") ? nested.Length("to", -LayoutLimits.Slack, front + LayoutLimits.Slack) : null;
            if (from is not { } a || to is not { } b) continue;
            if (b - a < ShortestPanel) nested.Error("to", nested["to"], "panel-length", $"The panel must end at least {Say.Length(ShortestPanel, reader.Unit)} after it begins.");
            else panels.Add(new Panel("", kind, Math.Clamp(a, 0, front), Math.Clamp(b, 0, front), minutes));
        }

        return panels.Count == nodes.Count ? panels : null;
    }

    private static Panel DeckPan(double from, double to) => new("", PanelKind.DeckPan, from, to, DefaultMinutes(PanelKind.DeckPan));
}
