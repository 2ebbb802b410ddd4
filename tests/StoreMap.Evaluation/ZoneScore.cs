using StoreMap.Plans;
using StoreMap.Simulation.Stores;
using StoreMap.Zones;

namespace StoreMap.Evaluation;

/// <summary>Holds a zone against the leak it is about.</summary>
internal static class ZoneScore
{
    private const double Ft = LengthUnits.MetresPerFoot;

    public static ZoneAnswer Of(Stage stage, LeakZone zone, StoreLeak leak)
    {
        if (zone.From is not { } from || zone.To is not { } to)
        {
            var radius = zone.Radius ?? 0;
            return new ZoneAnswer(stage, zone.Probability, zone.At.DistanceTo(leak.At) <= radius, 2 * radius / Ft, null, null);
        }

        var (half, rank) = Density(zone.Profiles.Count > 0 ? zone.Profiles[0].Points : [], leak.Along);
        return new ZoneAnswer(stage, zone.Probability, leak.Along >= from && leak.Along <= to, (to - from) / Ft, half, rank);
    }

    // Each point of the profile stands for the stretch half way to its neighbours.
    private static (bool? Half, double? Rank) Density(IReadOnlyList<ProfilePoint> profile, double along)
    {
        if (profile.Count < 3) return (null, null);
        var weight = new double[profile.Count];
        var nearest = 0;
        for (var i = 0; i < weight.Length; i++)
        {
            var low = i == 0 ? profile[0].Along : (profile[i - 1].Along + profile[i].Along) / 2;
            var high = i == weight.Length - 1 ? profile[i].Along : (profile[i].Along + profile[i + 1].Along) / 2;
            weight[i] = profile[i].Density * (high - low);
            if (Math.Abs(profile[i].Along - along) < Math.Abs(profile[nearest].Along - along)) nearest = i;
        }

        var total = weight.Sum();
        if (total <= 0) return (null, null);
        var denser = 0.0;
        var below = 0.0;
        for (var i = 0; i < weight.Length; i++)
        {
            if (profile[i].Density > profile[nearest].Density) denser += weight[i];
            if (i < nearest) below += weight[i];
        }

        return (denser / total < 0.5, (below + (0.5 * weight[nearest])) / total);
    }
}
