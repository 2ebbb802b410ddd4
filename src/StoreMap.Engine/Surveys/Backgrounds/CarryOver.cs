namespace StoreMap.Surveys;

/// <summary>Finds readings taken while the hose still held gas from an over-range reading.</summary>
internal static class CarryOver
{
    /// <summary>Marks the readings after an over-range one of the same monitor until it is back at clean air: at or under its limit,
    /// or no more than the action level above the lowest tenth of what it showed of this gas during the visit.</summary>
    /// <param name="survey">Readings in time order.</param>
    /// <param name="channels">Channel of each reading.</param>
    /// <param name="actions">Action level of each reading, ppm.</param>
    /// <returns>Seconds since the last over-range reading for those marked, null for the others.</returns>
    public static double?[] Of(Survey survey, AirChannel[] channels, double[] actions)
    {
        var marked = new double?[channels.Length];
        foreach (var monitor in channels.Select(c => (c.Instrument, c.Co2)).Distinct())
        {
            var own = Enumerable.Range(0, channels.Length)
                .Where(i => channels[i].Instrument == monitor.Instrument && channels[i].Co2 == monitor.Co2).ToArray();
            var numbers = own.Select(i => survey.Readings[i]).Where(r => r.Bound != ReadingBound.AtLeast)
                .Select(r => r.Bound == ReadingBound.Below ? 0 : r.Ppm).Order().ToArray();
            var clean = numbers.Length == 0 ? 0 : numbers[numbers.Length / 10];
            DateTimeOffset? over = null;
            foreach (var i in own)
            {
                var reading = survey.Readings[i];
                if (reading.Bound == ReadingBound.AtLeast) over = reading.Time;
                else if (reading.Bound == ReadingBound.Below || reading.Ppm <= clean + actions[i]) over = null;
                else if (over is { } last) marked[i] = (reading.Time - last).TotalSeconds;
            }
        }

        return marked;
    }
}
