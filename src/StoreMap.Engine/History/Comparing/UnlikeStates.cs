using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Finds fixtures whose latest readings have no like at earlier visits, and says why.</summary>
internal static class UnlikeStates
{
    /// <summary>What cannot be compared with the latest visit, per fixture in the plan's order; empty for a single visit.</summary>
    public static IReadOnlyList<NotComparable> Find(Plan plan, IReadOnlyList<SurveyVisit> visits, VisitReadings readings)
    {
        List<NotComparable> all = [];
        var last = visits.Count - 1;
        foreach (var fixture in plan.Fixtures)
        {
            var probed = Enumerable.Range(0, visits.Count).Where(v => readings[v, fixture.Id].Count > 0).ToList();
            if (probed.Count == 0) continue;
            if (!probed.Contains(last))
            {
                all.Add(new NotComparable(fixture.Id, [.. probed.Append(last).Select(v => visits[v].Date)], $"not probed {Words.Date(visits[last].Date)}"));
                continue;
            }

            var missing = Enumerable.Range(0, last).Except(probed).ToList();
            if (missing.Count > 0)
            {
                List<DateOnly> dates = [.. missing.Select(v => visits[v].Date)];
                all.Add(new NotComparable(fixture.Id, [.. dates, visits[last].Date], $"not probed {Words.Dates(dates)}"));
            }

            foreach (var v in probed.Where(v => v != last))
            {
                if (Reason(readings, visits, fixture.Id, v) is { } reason)
                    all.Add(new NotComparable(fixture.Id, [visits[v].Date, visits[last].Date], reason));
            }
        }

        return all;
    }

    /// <summary>Why a fixture's readings at a visit have no like at the latest; null when they have.</summary>
    private static string? Reason(VisitReadings readings, IReadOnlyList<SurveyVisit> visits, string fixture, int visit)
    {
        var before = States(readings, visit, fixture);
        var now = States(readings, visits.Count - 1, fixture);
        if (before.Exists(s => !s.HitOnly && now.Contains(s))) return null;
        // The pair that differs least says most plainly what was otherwise.
        var (a, b) = (from x in before from y in now orderby x.Distance(y), x.SortKey, y.SortKey select (x, y)).First();
        return string.Join("; ", a.Differences(visits[visit].Date, b, visits[^1].Date));
    }

    private static List<LikeState> States(VisitReadings readings, int visit, string fixture) =>
        [.. readings[visit, fixture].Select(r => r.State).Distinct().OrderBy(s => s.SortKey, StringComparer.Ordinal)];
}
