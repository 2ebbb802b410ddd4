using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Says how one zone stands at the latest visit, and why.</summary>
internal sealed class ZoneStory
{
    private readonly Plan plan;
    private readonly ZoneTrack track;
    private readonly TrackPeaks peaks;
    private readonly IReadOnlyList<SurveyVisit> visits;
    private readonly IReadOnlyList<ServiceFinding> findings;
    private readonly string? unlike;

    /// <param name="plan">The plan.</param>
    /// <param name="track">The zone.</param>
    /// <param name="peaks">Its peaks in like state.</param>
    /// <param name="visits">The visits.</param>
    /// <param name="findings">What the service record has on it.</param>
    /// <param name="unlike">Why values of some visits are not compared; null when all are.</param>
    public ZoneStory(
        Plan plan, ZoneTrack track, TrackPeaks peaks, IReadOnlyList<SurveyVisit> visits, IReadOnlyList<ServiceFinding> findings, string? unlike)
    {
        this.plan = plan;
        this.track = track;
        this.peaks = peaks;
        this.visits = visits;
        this.findings = findings;
        this.unlike = unlike;
    }

    private ZoneVisit Now => peaks.Visits[^1];

    private IEnumerable<ZoneVisit> Before => peaks.Visits.SkipLast(1);

    public ZoneHistory Tell(ComparisonSettings settings)
    {
        var (change, reason) = Judge();
        var note = change switch
        {
            ZoneChange.New => $"First seen {Words.Date(Now.Date)}{At(Now)}. {reason}",
            ZoneChange.Recurring => $"Seen at {Words.Number(track.Seen.Count())} of {Words.Number(visits.Count)} visits{Values(peaks.Visits)}. {reason}",
            ZoneChange.NoLongerSeen => $"Nothing above {Words.Ppm(peaks.ComparedAt)} on {Words.Date(Now.Date)}; before{Values(Before)}. {reason}",
            _ => $"Seen {SeenDates()}, not comparable at the latest visit: {reason}.",
        };
        var trend = peaks.Trend(settings);
        return new ZoneHistory(
            track.Fixture, track.Latest.From, track.Latest.To, peaks.Visits, change, trend, TrackService.InWords(plan, findings),
            string.Join(" ", new[] { note.Trim(), Repairs(change), TrendWords(trend) }.Where(s => s.Length > 0))) { Sightings = track.Sightings };
    }

    private (ZoneChange Change, string Reason) Judge()
    {
        var before = track.Sightings.SkipLast(1).Any(s => s is not null);
        if (track.Sightings[^1] is not null) return before ? (ZoneChange.Recurring, NotCompared()) : (ZoneChange.New, WhyNew());
        if (Now.PeakPpm is null) return (ZoneChange.NotComparable, unlike ?? $"not probed {Words.Date(Now.Date)}");
        if (peaks.Shows(Now)) return (ZoneChange.Recurring, $"Gas is still here, {Ppm(Now)} on {Words.Date(Now.Date)}, though no zone was located at that visit.");
        var shown = peaks.Visits.SkipLast(1).Where(v => v.Seen && v.PeakPpm is not null).ToList();
        if (shown.Count == 0) return (ZoneChange.NotComparable, unlike ?? "not seen in like state before");
        return shown.Exists(peaks.Shows) ? (ZoneChange.NoLongerSeen, "")
            : (ZoneChange.NotComparable, $"the {Ppm(shown[^1])} of {Words.Date(shown[^1].Date)} would not have shown above {Words.Ppm(peaks.ComparedAt)}, the largest detection level of these visits");
    }

    private string NotCompared() => unlike is null ? "" : $"Values of some visits are not compared: {unlike}.";

    private string WhyNew()
    {
        if (visits.Count == 1) return "";
        var probed = Before.Where(v => v.PeakPpm is not null).ToList();
        if (probed.Count == 0) return $"It may be older: {unlike ?? "not probed here before"}.";
        if (Now.PeakPpm is null || !peaks.Shows(Now))
            return $"It may be older: a leak of this size could have hidden below {Words.Ppm(peaks.ComparedAt)} before.";
        return probed.Exists(peaks.Shows)
            ? $"Some gas showed here before ({Ppm(probed.MaxBy(v => v.PeakPpm)!)}) without a zone."
            : $"Nothing above {Words.Ppm(peaks.ComparedAt)} here before.";
    }

    /// <summary>Repairs on record between the visits, noted whatever the readings say.</summary>
    private string Repairs(ZoneChange change)
    {
        var first = Array.FindIndex(track.Sightings, s => s is not null);
        var days = findings.Select(f => f.Repaired).OfType<DateOnly>().Where(d => d >= visits[first].Date && d <= Now.Date).Distinct().Order().ToList();
        if (days.Count > 0)
        {
            var again = track.Sightings[^1] is not null && days[0] < Now.Date;
            return again ? $"Seen again after the repair of {Words.Dates(days)}." : $"The service record has a repair on {Words.Dates(days)}.";
        }

        return change == ZoneChange.NoLongerSeen ? "No repair in that time is on record: it may come back." : "";
    }

    private static string TrendWords(ZoneTrend? trend) => trend is not { P: < 0.05 } ? ""
        : $"{(trend.SlopePerMonth > 0 ? "Rising" : "Falling")} by about {Words.Ppm(Math.Abs(trend.SlopePerMonth))} a month.";

    private string SeenDates() => Words.Dates([.. peaks.Visits.Where(v => v.Seen).Select(v => v.Date)]);

    private static string Values(IEnumerable<ZoneVisit> some)
    {
        var values = some.Where(v => v.PeakPpm is not null).ToList();
        return values.Count == 0 ? "" : $": {Words.And([.. values.Select(v => $"{Ppm(v)} {Words.Date(v.Date)}")])}";
    }

    private static string At(ZoneVisit visit) => visit.PeakPpm is null ? "" : $" at {Ppm(visit)}";

    private static string Ppm(ZoneVisit visit) => visit.Below ? $"nothing above {Words.Ppm(visit.DetectionPpm ?? 0)}"
        : $"{(visit.AtLeast ? "at least " : "")}{Words.Ppm(visit.PeakPpm ?? 0)}";
}
