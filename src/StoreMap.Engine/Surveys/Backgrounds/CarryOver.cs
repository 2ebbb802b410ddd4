namespace StoreMap.Surveys;

/// <summary>Finds readings taken while the hose still held gas from an over-range reading.</summary>
internal static class CarryOver
{
    /// <summary>Marks the readings after an over-range one of the same monitor until it is back at clean air: at or under its limit,
    /// or no more than the action level above the lowest tenth of what it showed of this gas during the visit.</summary>
    /// <param name="survey">Readings in time order.</param>
    /// <param name="channels">Channel of each reading.</param>
    /// <param name="actions">Action level of each reading, ppm.</param>
    public static bool[] Of(Survey survey, AirChannel[] channels, double[] actions)
    {
        var marked = new bool[channels.Length];
        foreach (var monitor in channels.Select(c => (c.Instrument, c.Co2)).Distinct())
        {
            var own = Enumerable.Range(0, channels.Length)
                .Where(i => channels[i].Instrument == monitor.Instrument && channels[i].Co2 == monitor.Co2).ToArray();
            var numbers = own.Select(i => survey.Readings[i]).Where(r => r.Bound != ReadingBound.AtLeast)
                .Select(r => r.Bound == ReadingBound.Below ? 0 : r.Ppm).Order().ToArray();
            var clean = numbers.Length == 0 ? 0 : numbers[numbers.Length / 10];
            var carrying = false;
            foreach (var i in own)
            {
                var reading = survey.Readings[i];
                if (reading.Bound == ReadingBound.AtLeast) carrying = true;
                else if (reading.Bound == ReadingBound.Below || reading.Ppm <= clean + actions[i]) carrying = false;
                else marked[i] = carrying;
            }
        }

        return marked;
    }
}
