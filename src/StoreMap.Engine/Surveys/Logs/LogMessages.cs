using System.Globalization;

namespace StoreMap.Surveys;

/// <summary>What is said about a log put in place.</summary>
internal static class LogMessages
{
    // A filter that clogs slows the line; a second is far more than two honest passes differ by.
    private const double MostSpread = 1;

    public static void Lag(Instrument instrument, LagEstimate? lag, LogAlignOptions options, List<Problem> warnings)
    {
        if (lag is null)
        {
            if (options.EstimateClock)
            {
                Warn("clock", null, "clock-unknown",
                    "The offset of the two clocks does not show: no line-up was walked both ways past gas, and no number rises at the marks. They were taken as equal.");
            }

            return;
        }

        var off = Math.Abs(lag.Seconds - instrument.DelaySeconds);
        var found = $"The log shows a lag of {Text(lag.Seconds)} s (deviation {Text(lag.DeviationSeconds)} s, from {lag.How}), clock difference included";
        if (options.EstimateClock)
        {
            Warn("clock", Text(lag.Seconds - instrument.DelaySeconds), "clock-found",
                found + $"; with a delay of {Text(instrument.DelaySeconds)} s the marks' clock is {Text(lag.Seconds - instrument.DelaySeconds)} s behind. It was set right.");
        }
        else if (options.DelayKnown && off > 1 + (2 * lag.DeviationSeconds))
        {
            Warn("delay", Text(instrument.DelaySeconds), "lag-differs",
                found + $"; the delay given is {Text(instrument.DelaySeconds)} s and was used. Check the filter, the line and the clocks.");
        }
        else if (!options.DelayKnown && off > 1)
        {
            Warn("delay", Text(lag.Seconds), "lag-found", found + $"; it was used in place of {Text(instrument.DelaySeconds)} s.");
        }

        if (lag.SpreadSeconds > MostSpread + (2 * lag.DeviationSeconds))
        {
            Warn("delay", Text(lag.SpreadSeconds), "lag-drifts",
                $"The lag differs by {Text(lag.SpreadSeconds)} s between passes. Check the filter and the line for a blockage, and that the walks were at steady pace.");
        }

        void Warn(string field, string? value, string rule, string message) =>
            warnings.Add(new Problem(Severity.Warning, null, instrument.Id, field, value, rule, message));
    }

    public static Problem TooShort(Stay stay, Instrument instrument)
    {
        var held = stay.To - stay.From;
        var share = SensorModel.Of(instrument).Risen(held) * 100;
        return Of(stay.Mark, "dwell-short",
            $"Too short a dwell: held for {Text(held)} s, in which the monitor shows {share.ToString("0", CultureInfo.InvariantCulture)} % of "
            + $"what is there. Hold the probe for at least {Text(instrument.T90Seconds)} s.");
    }

    public static Problem Unlogged(Stay stay) =>
        Of(stay.Mark, "dwell-unlogged", "The log has no number for this mark; it was left out. Check the two clocks.");

    public static Problem Unplaced() => new(Severity.Error, null, null, null, null, "log-unplaced",
        "No number of the log lies on a walk or at a mark. Check that both are of the same visit and the clocks agree.");

    private static Problem Of(LogMark mark, string rule, string message) => new(
        Severity.Warning, null, mark.Reading.Place.Point ?? mark.Reading.Place.Fixture ?? mark.Element, "time",
        mark.Time.ToString("HH:mm:ss", CultureInfo.InvariantCulture), rule, message);

    private static string Text(double number) => number.ToString("0.#", CultureInfo.InvariantCulture);
}
