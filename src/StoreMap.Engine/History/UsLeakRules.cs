using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>Which US federal leak rules an appliance falls under.</summary>
public enum UsLeakRule
{
    /// <summary>Neither.</summary>
    None,

    /// <summary>40 CFR part 82 (ozone-depleting refrigerant, 50 lb and more).</summary>
    Part82,

    /// <summary>40 CFR part 84 subpart C (hydrofluorocarbons and substitutes with a GWP above 53, 15 lb and more, from 2026).</summary>
    Part84,
}

/// <summary>The dates and limits of the US federal rules for commercial refrigeration, as a help to planning; the rules in force,
/// state rules and a qualified person come first. Sources: 40 CFR 82.157, 84.106, 84.108 (89 FR 82682); the inspection steps,
/// the alarm limits and the 125 % report from memory.</summary>
public static class UsLeakRules
{
    /// <summary>Percent a year above which a leak in commercial refrigeration must be repaired.</summary>
    public const double CommercialThresholdPercent = 20;

    /// <summary>Percent of the full charge added in a calendar year from which a report is due.</summary>
    public const double ChronicPercent = 125;

    private static readonly DateOnly Part84Begins = new(2026, 1, 1);

    /// <summary>The rule an appliance falls under.</summary>
    /// <param name="refrigerant">The refrigerant.</param>
    /// <param name="chargePounds">Full charge, lb.</param>
    /// <param name="day">The day.</param>
    public static UsLeakRule RuleFor(Refrigerant refrigerant, double chargePounds, DateOnly day)
    {
        // R-22 is the one ozone-depleting refrigerant of the table; every blend there with a hydrofluorocarbon has a GWP above 53.
        if (refrigerant.Name == "R-22") return chargePounds >= 50 ? UsLeakRule.Part82 : UsLeakRule.None;
        return refrigerant.GwpAr4 > 53 && chargePounds >= 15 && day >= Part84Begins ? UsLeakRule.Part84 : UsLeakRule.None;
    }

    /// <summary>Leak inspections of commercial refrigeration after its rate was over the threshold.</summary>
    /// <param name="chargePounds">Full charge, lb.</param>
    /// <returns>Months between inspections, and how many in a row at or below the threshold end them.</returns>
    public static (int Months, int CleanInARow) InspectionsAfterExceedance(double chargePounds) => chargePounds >= 500 ? (3, 4) : (12, 1);

    /// <summary>Loss at which an automatic leak detection system that infers losses must alarm: 50 lb or 10 % of the charge, whichever is less.</summary>
    /// <param name="chargePounds">Full charge, lb.</param>
    /// <returns>Pounds.</returns>
    public static double InferredLossAlarmPounds(double chargePounds) => Math.Min(50, 0.1 * chargePounds);

    /// <summary>When a report of chronic leaking is due.</summary>
    /// <param name="percentInYear">Percent of the full charge added in the calendar year.</param>
    /// <param name="year">The calendar year.</param>
    /// <returns>1 March of the next year; null when none is due.</returns>
    public static DateOnly? ChronicReportDue(double percentInYear, int year) =>
        LeakRate.Rounded(percentInYear) >= ChronicPercent ? new DateOnly(year + 1, 3, 1) : null;
}
