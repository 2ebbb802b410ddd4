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

/// <summary>A system over the US threshold.</summary>
/// <param name="System">System id.</param>
/// <param name="Percent">Its annualised leak rate, percent.</param>
/// <param name="Addition">Day of the addition that shows it.</param>
/// <param name="Due">Last day for the repair.</param>
public sealed record SystemOver(string System, double Percent, DateOnly Addition, DateOnly Due);

/// <summary>By when repairs and their tests are due, as far as the service record tells; the rules in force come first. US, where the plan
/// is in feet or inches: 30 days from the addition that showed a leak rate over the threshold, a follow-up test within 10 days of the
/// passed first (40 CFR 82.157, 84.106). Elsewhere a check within one month of the repair, after 24 hours of running (Regulation (EU)
/// 2024/573, article 5).</summary>
public static class RepairDues
{
    /// <summary>Days from the addition that showed the exceedance to the repair, US rules.</summary>
    public const int RepairDays = 30;

    /// <summary>Days from the passed initial test to the follow-up test, US rules.</summary>
    public const int FollowUpDays = 10;

    /// <summary>Systems over the US threshold, with the rate, the addition that shows it and the last day for the repair.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="record">The record; null when there is none.</param>
    /// <param name="day">Later additions are left out.</param>
    public static IReadOnlyList<SystemOver> Over(Plan plan, ServiceRecord? record, DateOnly day)
    {
        var over = new List<SystemOver>();
        if (record is null) return over;
        foreach (var system in plan.Systems)
        {
            if (system.ChargeKilograms is not { } charge || !IsUnderUsRules(system, day)) continue;
            if (LeakRate.Annualised(record, system.Id, charge, day) is not { } percent || !LeakRate.IsOver(percent, UsLeakRules.CommercialThresholdPercent)) continue;
            var addition = LeakRate.Additions(record, system.Id).Last(a => a.Date <= day).Date;
            over.Add(new SystemOver(system.Id, percent, addition, addition.AddDays(RepairDays)));
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
        if (!plan.Units.IsCustomary()) return finding.Repaired is { } repaired ? (RepairDue.Check, repaired.AddMonths(1)) : null;
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

    private static bool IsUnderUsRules(RefrigerationSystem system, DateOnly day) => system.ChargeKilograms is { } charge
        && Refrigerant.Find(system.Refrigerant) is { } gas && UsLeakRules.RuleFor(gas, charge / LengthUnits.KilogramsPerPound, day) != UsLeakRule.None;
}
