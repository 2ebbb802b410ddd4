using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Where to go back to after a number on the monitor.</summary>
/// <param name="Place">Where the probe was when the gas entered it.</param>
/// <param name="WalkedMetres">How far the probe has been walked on since, metres.</param>
/// <param name="Nearest">The nearest probe points, nearest first, at most three.</param>
public sealed record GoBackPlace(ReadingPlace Place, double WalkedMetres, IReadOnlyList<ProbePoint> Nearest);

/// <summary>The highest of a run of hits and where to go back to.</summary>
/// <param name="Hit">The reading.</param>
/// <param name="Place">The place.</param>
public sealed record GoBackHit(NetReading Hit, GoBackPlace Place);

/// <summary>The go-back rule: a number belongs to where the probe was one delay earlier, on the path it was walked.</summary>
public static class GoBack
{
    private const int MostPoints = 3;

    /// <summary>Finds the place of a number.</summary>
    /// <param name="log">An aligned log.</param>
    /// <param name="shown">When the number was shown.</param>
    /// <param name="points">Probe points to name; may be empty.</param>
    /// <returns>The place; null when the probe was on no walk and at no mark then.</returns>
    public static GoBackPlace? Find(AlignedLog log, DateTimeOffset shown, IReadOnlyList<ProbePoint> points)
    {
        var now = (shown - log.Log.Samples[0].Time).TotalSeconds;
        if (log.Path.At(now - log.DelaySeconds, now) is not var (place, walked)) return null;
        return new GoBackPlace(place, walked,
            [.. points.Where(p => p.Room == place.Room || p.Fixture == place.Fixture).OrderBy(p => p.At.DistanceTo(place.At)).Take(MostPoints)]);
    }

    /// <summary>The places of a visit's hits: of each run of hits at one fixture, the highest.</summary>
    /// <param name="log">An aligned log.</param>
    /// <param name="net">Its survey, backgrounds taken off.</param>
    /// <param name="points">Probe points to name; may be empty.</param>
    /// <returns>In time order.</returns>
    public static IReadOnlyList<GoBackHit> Hits(AlignedLog log, NetSurvey net, IReadOnlyList<ProbePoint> points)
    {
        var hits = new List<GoBackHit>();
        NetReading? best = null;
        foreach (var reading in net.Readings)
        {
            if (best is not null && (!reading.IsHit || reading.Reading.Place.Fixture != best.Reading.Place.Fixture)) Close();
            if (reading.IsHit && (best is null || reading.NetPpm > best.NetPpm)) best = reading;
        }

        Close();
        return hits;

        void Close()
        {
            if (best is not null && Find(log, best.Reading.Time, points) is { } place) hits.Add(new GoBackHit(best, place));
            best = null;
        }
    }
}
