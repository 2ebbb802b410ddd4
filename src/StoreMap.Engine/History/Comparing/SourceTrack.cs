using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.History;

/// <summary>Gas whose source was not placed in a case, through the visits: where it was met at each, null where it was not.</summary>
internal sealed class SourceTrack(int visits)
{
    public Elsewhere?[] Sightings { get; } = new Elsewhere?[visits];

    private IEnumerable<Elsewhere> Seen => Sightings.OfType<Elsewhere>();

    /// <summary>Follows what each visit found outside the cases, or left unexplained, to what the visits before it found: at the same
    /// fixture, or at places no farther apart than <see cref="ComparisonSettings.SourceReachMetres"/>.</summary>
    public static IReadOnlyList<SourceTrack> Follow(IReadOnlyList<SurveyVisit> visits, ComparisonSettings settings)
    {
        List<SourceTrack> tracks = [];
        for (var v = 0; v < visits.Count; v++)
        {
            foreach (var source in visits[v].Result.Elsewhere.Where(e => e.Probability >= settings.FoundProbability))
            {
                var track = tracks.Find(t => t.Sightings[v] is null && t.Seen.Any(s => Same(s, source, settings)));
                if (track is null) tracks.Add(track = new SourceTrack(visits.Count));
                track.Sightings[v] = source;
            }
        }

        return tracks;
    }

    /// <summary>How it stands at the latest visit.</summary>
    public SourceHistory Tell(IReadOnlyList<SurveyVisit> visits, VisitReadings readings)
    {
        var latest = Seen.Last();
        var now = Sightings[^1];
        var seen = Enumerable.Range(0, visits.Count).Where(v => Sightings[v] is not null).ToList();
        var (change, note) = now is not null
            ? seen.Count > 1 ? (ZoneChange.Recurring, $"Seen at {Words.Number(seen.Count)} of {Words.Number(visits.Count)} visits.") : (ZoneChange.New, $"First seen {Words.Date(visits[^1].Date)}.")
            : Gone(latest, visits, readings, seen);
        return new SourceHistory(latest.Near, latest.Look, latest.At, [.. seen.Select(v => visits[v].Date)], change, note) { Sightings = Sightings };
    }

    private static (ZoneChange Change, string Note) Gone(Elsewhere latest, IReadOnlyList<SurveyVisit> visits, VisitReadings readings, List<int> seen)
    {
        var last = visits.Count - 1;
        var day = Words.Date(visits[last].Date);
        var dates = Words.Dates([.. seen.Select(v => visits[v].Date)]);
        var now = readings[last, latest.Near];
        if (now.Any(r => r.Net.IsHit)) return (ZoneChange.Recurring, $"Gas is still here on {day}, and put down to another place; a source outside was likelier {dates}.");
        var before = seen.SelectMany(v => readings[v, latest.Near]).Select(r => r.State).ToHashSet();
        return now.Any(r => before.Contains(r.State))
            ? (ZoneChange.NoLongerSeen, $"No hit here on {day}; gas was met {dates}.")
            : (ZoneChange.NotComparable, $"Met {dates}, not probed in like state on {day}.");
    }

    private static bool Same(Elsewhere a, Elsewhere b, ComparisonSettings settings) =>
        a.Near == b.Near || (a.At is { } x && b.At is { } y && x.DistanceTo(y) <= settings.SourceReachMetres);
}
