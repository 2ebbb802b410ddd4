using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.History;

/// <summary>Does it add up? Sets the refrigerant added to each system against what the found leaks can have lost. Method and
/// assumptions: docs/history.md.</summary>
public static class MassBalances
{
    private const int Year = 365;

    /// <summary>Balances every system with additions in the days covered.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="visits">One or more, in any order.</param>
    /// <param name="record">The service record.</param>
    /// <param name="settings">Null takes the defaults.</param>
    /// <returns>One per system, in the plan's order; empty without additions.</returns>
    public static IReadOnlyList<MassBalance> Of(
        Plan plan, IReadOnlyList<SurveyVisit> visits, ServiceRecord record, ComparisonSettings? settings = null)
    {
        settings ??= new ComparisonSettings();
        var ordered = visits.OrderBy(v => v.Survey.Survey.Start.UtcDateTime).ToList();
        return ordered.Count == 0 ? [] : Of(plan, ordered, ZoneTrack.Follow(plan, ordered, settings), record, settings);
    }

    internal static IReadOnlyList<MassBalance> Of(
        Plan plan, IReadOnlyList<SurveyVisit> visits, IReadOnlyList<ZoneTrack> tracks, ServiceRecord record, ComparisonSettings settings)
    {
        List<MassBalance> balances = [];
        var to = visits[^1].Date;
        foreach (var system in plan.Systems)
        {
            if (Start(record, system.Id, visits) is not { } from) continue;
            var moved = record.Movements.Where(m => m.System == system.Id && m.Date > from && m.Date <= to).ToList();
            var added = moved.Sum(m => m.AddedKilograms - m.RecoveredKilograms);
            double low = 0, high = 0;
            foreach (var track in tracks.Where(t => SystemOf(plan, t)?.Id == system.Id))
            {
                var (least, most) = Lost(track, visits, from, Repairs(plan, track, record, settings));
                low += least;
                high += most;
            }

            balances.Add(new MassBalance(
                system.Id, system.Refrigerant ?? moved[^1].Refrigerant, to.DayNumber - from.DayNumber, added, low, high,
                system.ChargeKilograms is { } charge ? LeakRate.Annualised(record, system.Id, charge, to) : null,
                high >= settings.ExplainedShare * added, UncheckedParts.Of(plan, system, visits[^1]))
            {
                LatestAddition = LeakRate.Additions(record, system.Id).Select(a => (DateOnly?)a.Date).LastOrDefault(d => d <= to),
                SourcesNear = [.. visits[^1].Result.Elsewhere.Where(e => e.Probability >= settings.FoundProbability).Select(e => e.Near).Distinct()
                    .Where(id => plan.FindFixture(id) is { } near && UncheckedParts.IsOn(plan, near, system))],
            });
        }

        return balances;
    }

    // The days covered begin at the first visit, or when nothing was added since, at the first addition of the last year,
    // which made good what was lost before it; a lone addition counts a year, as the annualising method has it.
    private static DateOnly? Start(ServiceRecord record, string system, IReadOnlyList<SurveyVisit> visits)
    {
        var to = visits[^1].Date;
        var days = LeakRate.Additions(record, system).Select(a => a.Date).Where(d => d <= to && d > to.AddDays(-Year)).ToList();
        if (visits.Count > 1 && LeakRate.Additions(record, system).Any(a => a.Date > visits[0].Date && a.Date <= to)) return visits[0].Date;
        return days.Count switch { 0 => null, 1 => to.AddDays(-Year), _ => days[0] };
    }

    private static RefrigerationSystem? SystemOf(Plan plan, ZoneTrack track) =>
        plan.FindFixture(track.Fixture) is { } fixture ? plan.SystemAt(fixture, track.Latest.Center ?? 0) : null;

    private static List<DateOnly> Repairs(Plan plan, ZoneTrack track, ServiceRecord record, ComparisonSettings settings) =>
        [.. TrackService.Findings(plan, track, record, settings).Select(f => f.Repaired).OfType<DateOnly>().Order()];

    // Between two visits: seen at both, the lower and the higher strength; at one only, it may have begun or ended any day, at
    // the latest on the day of a repair. Before the first visit: as if it had leaked through all the days covered.
    private static (double Low, double High) Lost(ZoneTrack track, IReadOnlyList<SurveyVisit> visits, DateOnly from, List<DateOnly> repairs)
    {
        double low = 0, high = 0;
        for (var v = 0; v < visits.Count; v++)
        {
            var begin = v == 0 || visits[v - 1].Date < from ? from : visits[v - 1].Date;
            var end = visits[v].Date;
            double days = end.DayNumber - begin.DayNumber;
            if (days <= 0) continue;
            LeakZone? now = track.Sightings[v], before = v == 0 ? now : track.Sightings[v - 1];
            var repaired = repairs.FindIndex(d => d >= begin && d <= end);
            if (now is null && repaired >= 0) days = repairs[repaired].DayNumber - begin.DayNumber;
            low += Math.Min(now?.StrengthLowKilogramsPerYear ?? 0, before?.StrengthLowKilogramsPerYear ?? 0) * days / Year;
            high += Math.Max(now?.StrengthHighKilogramsPerYear ?? 0, before?.StrengthHighKilogramsPerYear ?? 0) * days / Year;
        }

        return (low, high);
    }
}
