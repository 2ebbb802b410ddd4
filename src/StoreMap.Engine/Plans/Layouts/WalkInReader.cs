using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Reads what only a walk-in has: its doorway, its coils, the circuit that feeds it.</summary>
internal static class WalkInReader
{
    /// <summary>Completes a walk-in; null, with an error, when it has no usable doorway.</summary>
    public static Fixture? Read(FieldReader reader, LayoutElements elements, Fixture shared)
    {
        var drawn = shared.Outline.Count > 0;
        var given = reader.Require("opening", "the doorway [[x, y], [x, y]] in the walk-in's outline");
        var opening = given && drawn ? OpeningReader.Read(reader, "opening", reader["opening"], shared.Outline) : null;
        var coils = reader.Points("coils") ?? [];
        for (var i = 0; drawn && i < coils.Count; i++)
        {
            if (!Rings.Covers(shared.Outline, coils[i], LayoutLimits.Slack))
            {
                reader.Error($"coils[{i}]", reader["coils"]![i], "coil-in-walk-in", "The coil lies outside its walk-in; evaporators hang inside. Move it into the outline.");
            }
        }

        var circuit = Circuit(reader, elements);
        return opening is null ? null : shared with { Opening = opening, Coils = coils, WalkInCircuit = circuit };
    }

    private static string? Circuit(FieldReader reader, LayoutElements elements)
    {
        if (reader["circuit"] is not JsonArray) return elements.Reference(reader, "circuit", LayoutLists.Circuits);
        var circuits = elements.References(reader, "circuit", LayoutLists.Circuits);
        if (circuits.Count > 1) reader.Warn("circuit", reader["circuit"], "circuit-count", $"A walk-in is taken to hang on one circuit; {circuits[0]} is used.");
        return circuits.Count > 0 ? circuits[0] : null;
    }
}
