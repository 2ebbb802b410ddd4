using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>What is due of a finding, and by when.</summary>
public enum RepairDue
{
    /// <summary>Repair and a passed initial test.</summary>
    Repair,

    /// <summary>The follow-up test after a passed initial test.</summary>
    FollowUpTest,

    /// <summary>The check of a repair by a certified person.</summary>
    Check,
}

/// <summary>A system that was over the US threshold and has not been mended since.</summary>
/// <param name="System">System id.</param>
/// <param name="Percent">Its annualised leak rate at that addition, percent a year.</param>
/// <param name="Addition">Day of the first addition that showed it over.</param>
/// <param name="Due">Last day for the repair.</param>
public sealed record SystemOver(string System, double Percent, DateOnly Addition, DateOnly Due);

/// <summary>By when repairs and their tests are due, as far as the service record tells; the rules in force come first. US, where the plan
/// is in feet or inches: 30 days from the first addition that showed a leak rate over the threshold and has not been mended since; later
/// additions give no more time. A follow-up test within 10 days of the passed first (40 CFR 82.157, 84.106). Elsewhere a check within one month of the repair, after 24 hours of running (Regulation (EU)
/// 2024/573, article 5).</summary>
public static class RepairDues
{
    /// <summary>Days from the addition that showed the exceedance to the repair, US rules.</summary>
    public const int RepairDays = 30;

    /// <summary>Days from the passed initial test to the follow-up test, US rules.</summary>
    public const int FollowUpDays = 10;

    /// <summary>Systems over the US threshold and not mended since, with the rate, the addition that first showed it and the last day for
    /// the repair. A lower rate afterwards is no repair: mended is a system when one of its findings passed a test on or after the day of
    /// the addition and none that was known by then is unverified. Reopened after a passed follow-up test it is a new leak, for which the next
    /// addition over the threshold sets the day; reopened before, the old day stands.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="record">The record; null when there is none.</param>
    /// <param name="day">Later additions and entries are left out.</param>
    public static IReadOnlyList<SystemOver> Over(Plan plan, ServiceRecord? record, DateOnly day)
    {
        var over = new List<SystemOver>();
        if (record is null) return over;
        var leaks = ServiceFinding.Leaks(record, day).GroupBy(f => SystemOf(plan, f)?.Id).Where(g => g.Key is not null).ToDictionary(g => g.Key!, g => g.ToList());
        foreach (var system in plan.Systems)
        {
            if (system.ChargeKilograms is not { } charge) continue;
            var own = leaks.GetValueOrDefault(system.Id, []);
            foreach (var addition in LeakRate.Additions(record, system.Id).Select(a => a.Date).TakeWhile(d => d <= day))
            {
                if (!IsUnderUsRules(system, addition) || IsMended(own, addition)) continue;
                var percent = LeakRate.Annualised(record, system.Id, charge, addition)!.Value;
                if (!LeakRate.IsOver(percent, UsLeakRules.CommercialThresholdPercent)) continue;
                over.Add(new SystemOver(system.Id, percent, addition, addition.AddDays(RepairDays)));
                break;
            }
        }

        return over;
    }

    /// <summary>What is due next of one finding; null when nothing is, or no rule is known to set a day.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="record">The record.</param>
    /// <param name="finding">One of its findings.</param>
    /// <param name="day">Today.</param>
    public static (RepairDue Due, DateOnly By)? Of(Plan plan, ServiceRecord record, ServiceFinding finding, DateOnly day)
    {
        if (finding.FollowedUp is not null) return null;
        if (!plan.FileUnits.IsCustomary()) return finding.Repaired is { } repaired ? (RepairDue.Check, repaired.AddMonths(1)) : null;
        if (SystemOf(plan, finding) is not { } system || !IsUnderUsRules(system, day)) return null;
        if (finding.Verified is { } verified) return (RepairDue.FollowUpTest, verified.AddDays(FollowUpDays));
        return Over(plan, record, day).FirstOrDefault(o => o.System == system.Id) is { } over ? (RepairDue.Repair, over.Due) : null;
    }

    /// <summary>The system that a finding's place belongs to; null when the plan does not say.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="finding">The finding.</param>
    public static RefrigerationSystem? SystemOf(Plan plan, ServiceFinding finding)
    {
        if (plan.FindFixture(finding.Entry.Fixture) is { } fixture) return plan.SystemAt(fixture, finding.Entry.Along ?? 0);
        var id = plan.Equipment.FirstOrDefault(e => e.Id == finding.Entry.Equipment)?.System;
        return plan.Systems.FirstOrDefault(s => s.Id == id);
    }

    // By an initial test on record: a follow-up holds a repair that was made before, and mends nothing new.
    private static bool IsMended(List<ServiceFinding> leaks, DateOnly addition) => leaks
        .Where(f => f.TestOnRecord).Select(f => f.Verified).Any(passed => passed >= addition && leaks.All(f => f.Opened > passed || f.Verified is not null));

    private static bool IsUnderUsRules(RefrigerationSystem system, DateOnly day) => system.ChargeKilograms is { } charge
        && Refrigerant.Find(system.Refrigerant) is { } gas && UsLeakRules.RuleFor(gas, charge / LengthUnits.KilogramsPerPound, day) != UsLeakRule.None;
}
