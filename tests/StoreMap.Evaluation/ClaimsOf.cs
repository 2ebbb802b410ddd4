using StoreMap.Simulation.Stores;
using StoreMap.Zones;

namespace StoreMap.Evaluation;

/// <summary>The probabilities an answer states, with what was so.</summary>
internal static class ClaimsOf
{
    /// <summary>A zone is right when a leak sits on its fixture that no zone before it has claimed; the nearer leak is claimed first. A
    /// panel's claim is the zone's probability times the panel's own.</summary>
    public static IEnumerable<Claim> Result(SimulatedStore store, Stage stage, LocateResult result)
    {
        var free = store.Leaks.Where(l => l.Fixture is not null).ToList();
        foreach (var zone in result.Zones)
        {
            var own = free.Where(l => l.Fixture == zone.Fixture).MinBy(l => Math.Abs(l.Along - (zone.Center ?? l.Along)));
            if (own is not null) free.Remove(own);
            yield return new Claim(stage, false, zone.Probability, own is not null);
            foreach (var panel in zone.Panels)
            {
                var inside = own is not null && own.Along >= panel.From && own.Along < panel.To;
                yield return new Claim(stage, true, zone.Probability * panel.Probability, inside);
            }
        }
    }
}
