using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>The order of lifting panels that finds the leaks soonest.</summary>
internal static class OpeningOrder
{
    /// <summary>Panels by probability per minute, which minimises the expected minutes until one leak is found when its place is one of
    /// several boxes with known chances and costs (classical search theory: Stone, Theory of Optimal Search, 1975).</summary>
    public static IReadOnlyList<string> Of(Plan plan, IReadOnlyList<LeakZone> zones)
    {
        var minutes = plan.Fixtures.SelectMany(f => f.Panels).GroupBy(p => p.Id).ToDictionary(g => g.Key, g => Math.Max(g.First().Minutes, 0.1));
        var chances = new List<(string Id, double Chance)>();
        foreach (var zone in zones)
        {
            foreach (var panel in zone.Panels)
            {
                var at = chances.FindIndex(c => c.Id == panel.Id);
                var chance = zone.Probability * panel.Probability;
                if (at < 0) chances.Add((panel.Id, chance));
                else chances[at] = (panel.Id, 1 - ((1 - chances[at].Chance) * (1 - chance)));
            }
        }

        return [.. chances.OrderByDescending(c => c.Chance / minutes.GetValueOrDefault(c.Id, 5)).ThenBy(c => c.Id, StringComparer.Ordinal).Select(c => c.Id)];
    }

    /// <summary>Expected number of panels lifted when they are lifted from the likeliest on: sum of k times the k-th probability.</summary>
    public static double ExpectedOpened(IEnumerable<double> probabilities) =>
        probabilities.OrderDescending().Select((p, k) => (k + 1) * p).Sum();
}
