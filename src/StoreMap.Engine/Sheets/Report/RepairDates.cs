using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>By when repairs are due, as far as the service record tells; the rules in force come first. US: 30 days from the addition
/// that showed a leak rate over the threshold, a follow-up test within 10 days of the first (40 CFR 82.157, 84.106). Elsewhere the
/// words of Regulation (EU) 2024/573, article 5. Where nothing is over, a proposal.</summary>
internal static class RepairDates
{
    /// <summary>Days from the addition that showed the exceedance to the repair, US rules.</summary>
    public const int RepairDays = 30;

    /// <summary>Systems over the US threshold, with the rate, the addition that shows it and the last day for the repair.</summary>
    public static IReadOnlyList<(string System, double Percent, DateOnly Addition, DateOnly Due)> Over(Plan plan, ServiceRecord? record, DateOnly day)
    {
        var due = new List<(string, double, DateOnly, DateOnly)>();
        if (record is null) return due;
        foreach (var system in plan.Systems)
        {
            if (system.ChargeKilograms is not { } charge || Refrigerant.Find(system.Refrigerant) is not { } gas) continue;
            if (UsLeakRules.RuleFor(gas, charge / LengthUnits.KilogramsPerPound, day) == UsLeakRule.None) continue;
            if (LeakRate.Annualised(record, system.Id, charge, day) is not { } percent || !LeakRate.IsOver(percent, UsLeakRules.CommercialThresholdPercent)) continue;
            var addition = LeakRate.Additions(record, system.Id).Last(a => a.Date <= day).Date;
            due.Add((system.Id, percent, addition, addition.AddDays(RepairDays)));
        }

        return due;
    }

    /// <summary>The dates in sentences.</summary>
    public static IEnumerable<string> Lines(Plan plan, ServiceRecord? record, LocateResult located, DateOnly day, Words words)
    {
        if (!plan.Units.IsCustomary())
        {
            yield return words["date.eu"];
            yield break;
        }

        var over = Over(plan, record, day);
        foreach (var (system, percent, addition, due) in over)
        {
            yield return words.Say(
                "date.us", Named(plan, system, located, words), Numbers.Fixed(percent, 1), Numbers.Whole(UsLeakRules.CommercialThresholdPercent), Days.Of(due), Numbers.Whole(RepairDays), Days.Of(addition));
        }

        if (over.Count == 0) yield return words.Say("date.proposal", Days.Of(day.AddDays(RepairDays)));
    }

    // With the cases whose leaks it has, so that a date is not taken for that of another system's leak.
    private static string Named(Plan plan, string system, LocateResult located, Words words)
    {
        var cases = located.Zones.Where(z => plan.FindFixture(z.Fixture) is { } f && plan.SystemAt(f, z.Center ?? 0)?.Id == system).Select(z => plan.FindFixture(z.Fixture)!.Tag).Distinct().ToList();
        return cases.Count == 0 ? system : words.Say("date.system", system, string.Join(", ", cases));
    }
}
