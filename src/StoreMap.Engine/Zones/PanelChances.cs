using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Splits a zone's probability over the panels that may hide the leak.</summary>
internal static class PanelChances
{
    private const double Least = 0.001;

    /// <summary>Chances of at least 0.001, in order along the front.</summary>
    /// <param name="fixture">The fixture.</param>
    /// <param name="edges">Cell edges, metres along the front, ascending.</param>
    /// <param name="mass">Probability per cell, sum 1.</param>
    /// <param name="baseShare">Probability per cell that the leak is in the base piping.</param>
    public static IReadOnlyList<PanelChance> Of(Fixture fixture, double[] edges, double[] mass, double[] baseShare)
    {
        var panels = fixture.Panels;
        var chance = new double[panels.Count];
        for (var c = 0; c < mass.Length; c++)
        {
            if (mass[c] <= 0) continue;
            var width = edges[c + 1] - edges[c];
            // Within each piece of the cell the panels above it share by kind: a kick plate for the base, the rest for the coil.
            foreach (var (from, to) in Pieces(panels, edges[c], edges[c + 1]))
            {
                var here = Enumerable.Range(0, panels.Count).Where(p => panels[p].From <= from + 1e-9 && panels[p].To >= to - 1e-9).ToList();
                if (here.Count == 0) continue;
                var weights = here.Select(p => WeightOf(panels[p].Kind, baseShare[c])).ToArray();
                var sum = weights.Sum();
                for (var k = 0; k < here.Count; k++) chance[here[k]] += mass[c] * (to - from) / width * weights[k] / sum;
            }
        }

        return [.. panels.Select((p, i) => new PanelChance(p.Id, p.From, p.To, Math.Min(1, chance[i]))).Where(p => p.Probability >= Least)
            .OrderBy(p => p.From).ThenBy(p => p.Id, StringComparer.Ordinal)];
    }

    private static double WeightOf(PanelKind kind, double baseShare) => kind switch
    {
        PanelKind.KickPlate => 0.02 + baseShare,
        PanelKind.ValveCover => 0.02 + (0.5 * (1 - baseShare)),
        PanelKind.DeckPan => 0.02 + (1 - baseShare),
        _ => 0.02 + (0.3 * (1 - baseShare)),
    };

    private static IEnumerable<(double From, double To)> Pieces(IReadOnlyList<Panel> panels, double from, double to)
    {
        var cuts = panels.SelectMany(p => new[] { p.From, p.To }).Where(x => x > from + 1e-9 && x < to - 1e-9).Append(to).Order().ToList();
        var last = from;
        foreach (var cut in cuts)
        {
            if (cut - last > 1e-9) yield return (last, cut);
            last = cut;
        }
    }
}
