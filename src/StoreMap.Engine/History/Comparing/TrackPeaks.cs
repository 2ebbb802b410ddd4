using StoreMap.Surveys;

namespace StoreMap.History;

/// <summary>The peaks of one zone, or of a whole fixture, through the visits, all in the one state that lets most visits be compared.</summary>
/// <param name="State">The state; null when no reading there gives a number.</param>
/// <param name="Visits">One per visit.</param>
/// <param name="ComparedAt">The largest detection level among the visits compared: what is below it counts as below at all of them.</param>
internal sealed record TrackPeaks(LikeState? State, IReadOnlyList<ZoneVisit> Visits, double ComparedAt)
{
    public static TrackPeaks Of(
        ZoneTrack track, IReadOnlyList<ZoneTrack> neighbours, IReadOnlyList<SurveyVisit> visits, VisitReadings readings, ComparisonSettings settings)
    {
        return Of(visits, v => readings[v, track.Fixture].Where(r => Belongs(track, neighbours, r.Net.Reading.Place, settings)), v => track.Sightings[v] is not null);
    }

    /// <summary>Those of a whole fixture; seen where a zone of it was.</summary>
    public static TrackPeaks Of(string fixture, IReadOnlyList<ZoneTrack> tracks, IReadOnlyList<SurveyVisit> visits, VisitReadings readings) =>
        Of(visits, v => readings[v, fixture], v => tracks.Any(t => t.Fixture == fixture && t.Sightings[v] is not null));

    private static TrackPeaks Of(IReadOnlyList<SurveyVisit> visits, Func<int, IEnumerable<(NetReading Net, LikeState State)>> of, Func<int, bool> sighted)
    {
        var near = Enumerable.Range(0, visits.Count).Select(v => of(v).Where(r => !r.State.HitOnly).ToList()).ToList();
        LikeState? state = near.SelectMany(r => r).Select(r => r.State).Distinct()
            .OrderByDescending(s => near[^1].Exists(r => r.State == s))
            .ThenByDescending(s => near.Count(v => v.Exists(r => r.State == s)))
            .ThenBy(s => s.SortKey, StringComparer.Ordinal)
            .Select(s => (LikeState?)s).FirstOrDefault();
        List<ZoneVisit> peaks = [];
        for (var v = 0; v < visits.Count; v++)
        {
            var seen = sighted(v);
            var like = near[v].Where(r => r.State == state).Select(r => r.Net).ToList();
            peaks.Add(like.Count == 0 ? new ZoneVisit(visits[v].Date, null, false, false, seen) : Peak(visits[v].Date, like, seen));
        }

        return new TrackPeaks(state, peaks, peaks.Max(p => p.DetectionPpm) ?? 0);
    }

    /// <summary>True when a visit shows gas above what every compared visit could have shown.</summary>
    public bool Shows(ZoneVisit visit) => visit is { PeakPpm: { } peak, Below: false } && peak >= ComparedAt;

    /// <summary>The trend over the visits compared; null when they are too few.</summary>
    public ZoneTrend? Trend(ComparisonSettings settings)
    {
        var used = Visits.Where(v => v.PeakPpm is not null).ToList();
        if (used.Count < Math.Max(2, settings.TrendVisits)) return null;
        // All that lies below the largest detection level ties there: none of it can be ranked.
        var values = used.Select(v => Shows(v) ? v.PeakPpm!.Value : ComparedAt).ToArray();
        var test = MannKendall.Of(values);
        var line = SenSlope.Of([.. used.Select(v => (double)v.Date.DayNumber)], values);
        return double.IsNaN(line.Slope) ? null : new ZoneTrend((int)test.S, test.P, line.Slope * 30);
    }

    private static ZoneVisit Peak(DateOnly date, List<NetReading> like, bool seen)
    {
        var detection = like.Max(n => n.DetectionPpm);
        var shown = like.Where(n => n.Bound != ReadingBound.Below).ToList();
        if (shown.Count == 0) return new ZoneVisit(date, detection, false, false, seen, true, detection);
        var peak = shown.Max(n => n.NetPpm);
        var atLeast = shown.Exists(n => n.Bound == ReadingBound.AtLeast && n.NetPpm == peak);
        var below = peak < detection && !atLeast;
        // What could have been seen there, not the noise below it.
        return new ZoneVisit(date, below ? detection : peak, like.Exists(n => n.IsHit), atLeast, seen, below, detection);
    }

    // A reading between two zones of one fixture belongs to the nearer.
    private static bool Belongs(ZoneTrack track, IReadOnlyList<ZoneTrack> neighbours, ReadingPlace place, ComparisonSettings settings)
    {
        if (track.Hull is null) return true;
        if (place.Along is not { } along) return false;
        var distance = track.DistanceTo(along);
        return distance <= settings.ReachMetres && neighbours.All(n => n.DistanceTo(along) >= distance);
    }
}
