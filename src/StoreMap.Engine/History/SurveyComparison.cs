using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Sets visits side by side on equal terms: zones followed from visit to visit, net readings of like state only, the
/// service record beside them. A lower reading is "no longer seen", never "repaired". Method: docs/history.md.</summary>
public static class SurveyComparison
{
    /// <summary>Compares visits of one store; the latest is judged against those before it.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="visits">One or more, in any order.</param>
    /// <param name="record">The service record; null when there is none.</param>
    /// <param name="settings">Null takes the defaults.</param>
    /// <exception cref="ArgumentException">There is no visit.</exception>
    public static Comparison Compare(Plan plan, IReadOnlyList<SurveyVisit> visits, ServiceRecord? record = null, ComparisonSettings? settings = null)
    {
        if (visits.Count == 0) throw new ArgumentException("A comparison needs at least one visit.", nameof(visits));
        settings ??= new ComparisonSettings();
        var ordered = visits.OrderBy(v => v.Survey.Survey.Start.UtcDateTime).ToList();
        var readings = new VisitReadings(plan, ordered);
        var tracks = ZoneTrack.Follow(plan, ordered, settings);
        var unlike = UnlikeStates.Find(plan, ordered, readings).ToList();
        List<(ZoneHistory Zone, int Order)> zones = [];
        foreach (var track in tracks)
        {
            var neighbours = tracks.Where(t => t != track && t.Fixture == track.Fixture).ToList();
            var peaks = TrackPeaks.Of(track, neighbours, ordered, readings, settings);
            var reasons = unlike.Where(u => u.Fixture == track.Fixture).Select(u => u.Reason).ToList();
            var zone = new ZoneStory(
                plan, track, peaks, ordered, TrackService.Findings(plan, track, record, settings), reasons.Count == 0 ? null : string.Join("; ", reasons)).Tell(settings);
            zones.Add((zone, zones.Count));
        }

        foreach (var (zone, _) in zones.Where(z => z.Zone.Change == ZoneChange.NotComparable))
        {
            // The fixture has like readings, but not at this zone or not as sharp.
            if (unlike.Exists(u => u.Fixture == zone.Fixture)) continue;
            var dates = zone.Visits.Where(v => v.Seen).Select(v => v.Date).Append(ordered[^1].Date).ToList();
            unlike.Add(new NotComparable(zone.Fixture, dates, zone.Note));
        }

        return new Comparison(
            [.. ordered.Select(v => v.Date)],
            [.. zones.OrderBy(z => Rank(z.Zone.Change)).ThenBy(z => z.Order).Select(z => z.Zone)],
            [.. unlike.OrderBy(u => IndexOf(plan, u.Fixture))],
            record is null ? [] : MassBalances.Of(plan, ordered, tracks, record, settings))
        {
            Fixtures = [.. plan.Fixtures.Select(f => Fixture(f.Id)).Where(f => f.Visits.Any(v => v.Hit) && f.Visits.Count(v => v.PeakPpm is not null) > 1)],
            Sources = [.. SourceTrack.Follow(ordered, settings).Select(t => t.Tell(ordered, readings)).OrderBy(s => Rank(s.Change)).ThenBy(s => IndexOf(plan, s.Near))],
        };

        FixtureHistory Fixture(string id)
        {
            var peaks = TrackPeaks.Of(id, tracks, ordered, readings);
            return new FixtureHistory(id, peaks.Visits, peaks.Trend(settings));
        }
    }

    private static int Rank(ZoneChange change) => change switch
    {
        ZoneChange.Recurring => 0,
        ZoneChange.New => 1,
        ZoneChange.NoLongerSeen => 2,
        _ => 3,
    };

    private static int IndexOf(Plan plan, string fixture)
    {
        for (var i = 0; i < plan.Fixtures.Count; i++)
        {
            if (plan.Fixtures[i].Id == fixture) return i;
        }

        return int.MaxValue;
    }
}
