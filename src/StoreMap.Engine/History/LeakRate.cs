namespace StoreMap.History;

/// <summary>The legal leak rate of a system: percent of the full charge lost in a year, from weighed additions alone. What a
/// monitor shows in ppm never enters. Source: definitions of 40 CFR 82.152 and 84.102. Check the rule in force.</summary>
public static class LeakRate
{
    private const int Year = 365;

    /// <summary>The annualising method: the latest addition as if losses went on at the pace since the one before.</summary>
    /// <param name="added">Weight added, any unit, at least 0.</param>
    /// <param name="fullCharge">Full charge, same unit, greater than 0.</param>
    /// <param name="days">Days since the addition before, at least 1; counted as 365 when more.</param>
    /// <returns>Percent a year.</returns>
    public static double Annualising(double added, double fullCharge, int days)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(added);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fullCharge);
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        return added / fullCharge * Year / Math.Min(days, Year) * 100;
    }

    /// <summary>The rolling-average method: what was added in the last 365 days, or since all leaks passed a follow-up test if that is shorter.</summary>
    /// <param name="added">Sum of the weights added, any unit, at least 0.</param>
    /// <param name="fullCharge">Full charge, same unit, greater than 0.</param>
    /// <returns>Percent a year.</returns>
    public static double Rolling(double added, double fullCharge)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(added);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fullCharge);
        return added / fullCharge * 100;
    }

    /// <summary>True when a rate is over a threshold: strictly greater, both compared to 0.01 %.</summary>
    /// <param name="percent">The leak rate, percent.</param>
    /// <param name="thresholdPercent">The threshold, percent: 20 for commercial refrigeration in the US rules.</param>
    public static bool IsOver(double percent, double thresholdPercent) => Rounded(percent) > Rounded(thresholdPercent);

    /// <summary>A rate as it is printed and compared: to 0.01 %, halves away from zero.</summary>
    /// <param name="percent">The leak rate, percent.</param>
    public static double Rounded(double percent) => Math.Round(percent, 2, MidpointRounding.AwayFromZero);

    /// <summary>The annualised rate at the latest addition on record.</summary>
    /// <param name="record">The record.</param>
    /// <param name="system">System id.</param>
    /// <param name="fullChargeKilograms">Full charge, kilograms.</param>
    /// <param name="asOf">Later additions are left out.</param>
    /// <returns>Percent a year; null without an addition. Additions of one day count as one; the first on record counts 365 days.</returns>
    public static double? Annualised(ServiceRecord record, string system, double fullChargeKilograms, DateOnly asOf)
    {
        var additions = Additions(record, system).Where(a => a.Date <= asOf).ToArray();
        if (additions.Length == 0) return null;
        var days = additions.Length == 1 ? Year : additions[^1].Date.DayNumber - additions[^2].Date.DayNumber;
        return Annualising(additions[^1].Kilograms, fullChargeKilograms, days);
    }

    /// <summary>The rolling rate on a day.</summary>
    /// <param name="record">The record.</param>
    /// <param name="system">System id.</param>
    /// <param name="fullChargeKilograms">Full charge, kilograms.</param>
    /// <param name="asOf">The day; additions of the 365 days that end with it count.</param>
    /// <param name="allFixed">Day of the last successful follow-up test that showed all leaks fixed; null when there is none.</param>
    /// <returns>Percent a year; 0 without additions.</returns>
    public static double Rolled(ServiceRecord record, string system, double fullChargeKilograms, DateOnly asOf, DateOnly? allFixed = null)
    {
        var after = asOf.AddDays(-Year);
        if (allFixed > after && allFixed <= asOf) after = allFixed.Value;
        return Rolling(Additions(record, system).Where(a => a.Date > after && a.Date <= asOf).Sum(a => a.Kilograms), fullChargeKilograms);
    }

    /// <summary>Percent of the full charge added in a calendar year; from 125 on the US rules ask for a report by 1 March after.</summary>
    /// <param name="record">The record.</param>
    /// <param name="system">System id.</param>
    /// <param name="fullChargeKilograms">Full charge, kilograms.</param>
    /// <param name="year">Calendar year.</param>
    public static double CalendarYear(ServiceRecord record, string system, double fullChargeKilograms, int year) =>
        Rolling(Additions(record, system).Where(a => a.Date.Year == year).Sum(a => a.Kilograms), fullChargeKilograms);

    /// <summary>Weights added to a system by day, oldest first.</summary>
    internal static IEnumerable<(DateOnly Date, double Kilograms)> Additions(ServiceRecord record, string system) =>
        record.Movements.Where(m => m.System == system && m.AddedKilograms > 0).GroupBy(m => m.Date).OrderBy(g => g.Key)
            .Select(g => (g.Key, g.Sum(m => m.AddedKilograms)));
}
