using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Whether a monitor still holds gas from an over-range reading, so that it can be told while one reads. By the rule of
/// <see cref="CarryOver"/>, which judges the whole survey later.</summary>
public static class JournalClearing
{
    /// <summary>Down to which number the monitor must come before what it shows counts again.</summary>
    /// <param name="state">The replay.</param>
    /// <param name="device">The device whose readings were logged one after another; what it entered from paper is left out.</param>
    /// <param name="gas">The gas that the monitor is set to; null when not known. CO2 is read on a channel of its own.</param>
    /// <param name="monitor">Its limits.</param>
    /// <returns>Ppm; null when no over-range reading stands, or the monitor was back at clean air after it.</returns>
    public static double? Of(JournalState state, string device, string? gas, Instrument monitor)
    {
        var co2 = IsCo2(gas);
        var numbers = new List<(double Ppm, ReadingBound Bound)>();
        foreach (var e in state.Events.Where(e => e.Kind == JournalKinds.Reading && e.Device == device && e.Body["time"] is null && IsCo2(e.Body["gas"].Text()) == co2))
        {
            if (e.Body["ppm"].Text() is { } shown && PpmText.Parse(shown, new CsvNumbers(false)) is { } read) numbers.Add(read.Within(monitor.DetectionPpm, monitor.RangePpm));
        }

        var last = numbers.FindLastIndex(n => n.Bound == ReadingBound.AtLeast);
        if (last < 0) return null;
        // What was read since may itself be the gas in the hose.
        var inRange = numbers.Take(last).Where(n => n.Bound != ReadingBound.AtLeast).Select(n => n.Bound == ReadingBound.Below ? 0 : n.Ppm).Order().ToList();
        var clear = Math.Max(monitor.DetectionPpm, (inRange.Count == 0 ? 0 : inRange[inRange.Count / 10]) + (co2 ? SurveyDefaults.ActionCo2Ppm : SurveyDefaults.ActionPpm));
        return numbers.Skip(last + 1).Any(n => n.Bound == ReadingBound.Below || n.Ppm <= clear) ? null : clear;
    }

    private static bool IsCo2(string? gas) => Refrigerant.Find(gas)?.Name == "R-744";
}
