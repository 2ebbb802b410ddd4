using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>How long a night may get: the planned minutes at the pace of earlier visits, and the hits to be expected.</summary>
public static class Forecast
{
    /// <summary>One walk in so many is longer than the bad night.</summary>
    private const double OneIn = 20;

    /// <summary>A gap this long is a break or a talk, not work between two points, seconds.</summary>
    private const double LongestGapSeconds = 600;

    /// <summary>Fewer gaps than this tell nothing.</summary>
    private const int LeastGaps = 10;

    /// <summary>Works out likely and bad-night minutes.</summary>
    /// <param name="minutes">The planned minutes.</param>
    /// <param name="expectedHits">Hits to be expected, at least 0.</param>
    /// <param name="pace">Real over planned time of earlier visits; null when unknown.</param>
    /// <param name="protocol">What closing in on a hit takes.</param>
    /// <remarks>Hits come independently, so their number follows the Poisson law. The pace holds for walking, probing and handling, not for
    /// the fixed items.</remarks>
    public static RouteForecast Of(RouteMinutes minutes, double expectedHits, double? pace, Protocol protocol)
    {
        var points = (2 * Math.Floor((protocol.CloseInReachMetres / protocol.CloseInStepMetres) + 1e-9)) + 1;
        var perHit = protocol.HitMinutes
            + (points * ((protocol.CloseInDwellSeconds / 60) + (protocol.CloseInStepMetres / protocol.WalkingMetresPerSecond / 60)));
        var factor = pace ?? 1;
        var planned = minutes.Fixed + (factor * (minutes.Total - minutes.Fixed));
        return new(expectedHits, perHit, factor, planned + (expectedHits * perHit), planned + (MostHits(expectedHits) * perHit));
    }

    /// <summary>The least number of hits that is exceeded no more than once in twenty walks.</summary>
    internal static int MostHits(double expected)
    {
        var (chance, sum) = (Math.Exp(-expected), Math.Exp(-expected));
        var hits = 0;
        // Beyond a few hundred hits the sum of a night is nobody's question any more.
        while (sum < 1 - (1 / OneIn) && hits < 1000)
        {
            hits++;
            chance *= expected / hits;
            sum += chance;
        }

        return hits;
    }

    /// <summary>The pace of earlier visits: real seconds between readings at probe points over what the protocol plans for the same steps.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="paths">Walks on its free floor.</param>
    /// <param name="points">The store's probe points.</param>
    /// <param name="gaps">Steps between readings; unknown points and long breaks are left out.</param>
    /// <param name="protocol">Speeds and dwells planned.</param>
    /// <returns>The ratio of the sums, above 0; null with fewer than ten steps.</returns>
    public static double? Pace(Plan plan, WalkingPaths paths, IReadOnlyList<ProbePoint> points, IEnumerable<WalkedGap> gaps, Protocol protocol)
    {
        var byId = points.ToDictionary(p => p.Id);
        var (real, planned, count) = (0.0, 0.0, 0);
        foreach (var gap in gaps)
        {
            if (!byId.TryGetValue(gap.From, out var from) || !byId.TryGetValue(gap.To, out var to) || gap.Seconds is <= 0 or > LongestGapSeconds) continue;
            if (paths.Path(from.Stand, to.Stand) is not { } path) continue;
            real += gap.Seconds;
            planned += (path.Length / protocol.WalkingMetresPerSecond) + protocol.HandlingSeconds(plan, to) + to.DwellSeconds;
            count++;
        }

        return count < LeastGaps ? null : real / planned;
    }
}
