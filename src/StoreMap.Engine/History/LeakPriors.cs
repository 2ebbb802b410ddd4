using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.History;

/// <summary>Turns earlier visits and the service record into what the locator takes as prior: where it leaked before, and what was
/// repaired since.</summary>
public static class LeakPriors
{
    /// <summary>Makes the priors for a visit.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="visits">Visits with what was located then; those on the day or later are left out.</param>
    /// <param name="record">The service record; null when there is none. Entries after the day are left out.</param>
    /// <param name="day">Day of the visit to be located.</param>
    /// <param name="settings">Weights; null takes the defaults.</param>
    /// <param name="comparison">How zones are followed; null takes the defaults.</param>
    /// <returns>One per former zone and per finding elsewhere, in the plan's order; places with weight 1 are left out.</returns>
    public static IReadOnlyList<LeakPrior> From(
        Plan plan, IReadOnlyList<SurveyVisit> visits, ServiceRecord? record, DateOnly day, LeakPriorSettings? settings = null,
        ComparisonSettings? comparison = null)
    {
        settings ??= new LeakPriorSettings();
        comparison ??= new ComparisonSettings();
        var earlier = visits.Where(v => v.Date < day).OrderBy(v => v.Survey.Survey.Start.UtcDateTime).ToList();
        var known = record is null ? null : record with { Entries = [.. record.Entries.Where(e => e.Date <= day)] };
        List<LeakPrior> priors = [];
        HashSet<string> told = [];
        foreach (var track in ZoneTrack.Follow(plan, earlier, comparison))
        {
            var findings = TrackService.Findings(plan, track, known, comparison);
            told.UnionWith(findings.Select(f => f.Entry.Finding));
            priors.Add(OfTrack(track, earlier, findings, settings));
        }

        foreach (var finding in known is null ? [] : ServiceFinding.Of(known))
        {
            if (finding.Entry.Fixture is { } fixture && plan.FindFixture(fixture) is { } found && !told.Contains(finding.Entry.Finding))
                priors.Add(new LeakPrior(fixture, Along(found, finding.Entry), WeightOf(finding, settings), finding.InWords()));
        }

        var order = plan.Fixtures.Select((f, i) => (f.Id, i)).ToDictionary(p => p.Id, p => p.i, StringComparer.Ordinal);
        return [.. priors.Where(p => p.Weight != 1).OrderBy(p => order.GetValueOrDefault(p.Fixture, int.MaxValue)).ThenBy(p => p.Along ?? 0)];
    }

    private static LeakPrior OfTrack(
        ZoneTrack track, List<SurveyVisit> visits, IReadOnlyList<ServiceFinding> findings, LeakPriorSettings settings)
    {
        var dates = visits.Where((_, v) => track.Sightings[v] is not null).Select(v => v.Date).ToList();
        var full = dates.Count switch { 1 => settings.SeenOnce, 2 => settings.SeenTwice, _ => settings.SeenOften };
        // A zone that may not have existed says less.
        var weight = 1 + ((full - 1) * track.Seen.Max(z => z.Probability));
        var reason = $"seen here {Words.Dates(dates)}";
        // What the record says since the last sighting replaces that weight; an open finding can only add to it.
        foreach (var finding in findings)
        {
            var since = finding.Repaired ?? finding.Entry.Date;
            if (finding.Entry.Status is FindingStatus.Open or FindingStatus.Reopened) weight = Math.Max(weight, settings.OpenFinding);
            else if (since >= dates[^1]) weight = WeightOf(finding, settings);
            reason += $"; {finding.InWords()}";
        }

        return new LeakPrior(track.Fixture, track.Latest.Center, weight, reason);
    }

    private static double WeightOf(ServiceFinding finding, LeakPriorSettings settings) => finding.Entry.Status switch
    {
        FindingStatus.Open or FindingStatus.Reopened => settings.OpenFinding,
        FindingStatus.Isolated => settings.Isolated,
        FindingStatus.Repaired => settings.RepairedUnverified,
        _ => finding.TestOnRecord ? settings.RepairedVerified : settings.RepairedUnverified,
    };

    private static double? Along(Fixture fixture, ServiceEntry entry) =>
        entry.Along ?? (fixture.Sections.FirstOrDefault(s => s.Number == entry.Section) is { } section ? (section.From + section.To) / 2 : null);
}
