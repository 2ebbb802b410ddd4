using System.Globalization;

namespace StoreMap.Surveys;

/// <summary>Turns drafts into readings in time order: limits of the monitors applied, odd things counted and said.</summary>
internal static class ReadingFinisher
{
    /// <summary>Finishes the readings of a file.</summary>
    /// <param name="drafts">In file order.</param>
    /// <param name="instruments">At least one; the first stands for readings that name none.</param>
    /// <param name="problems">Gets the warnings.</param>
    public static List<Reading> Finish(List<ReadingDraft> drafts, IReadOnlyList<Instrument> instruments, SurveyProblems problems)
    {
        var byId = instruments.ToDictionary(i => i.Id, StringComparer.Ordinal);
        var readings = new List<Reading>(drafts.Count);
        var latest = DateTimeOffset.MinValue;
        foreach (var draft in drafts)
        {
            var instrument = draft.Reading.Instrument is { } id ? byId[id] : instruments[0];
            if (draft.Text.Number < 0)
            {
                problems.Count(draft.Element, "ppm", draft.Text.Number?.ToString(CultureInfo.InvariantCulture), "reading-negative",
                    "A negative number: the monitor's zero has drifted. Taken as below its limit; zero the monitor in clean air.");
            }

            if (draft.Reading.Time < latest)
            {
                problems.Count(draft.Element, "time", null, "reading-order",
                    "The row is earlier than a row before it. The readings were put in time order, rows of one time in file order.");
            }

            latest = draft.Reading.Time > latest ? draft.Reading.Time : latest;
            var (ppm, bound) = Value(draft.Text, instrument);
            var shown = draft.Text.Bound == ReadingBound.Exact && bound != ReadingBound.Exact ? draft.Text.Number : draft.Reading.Shown;
            readings.Add(draft.Reading with { Ppm = ppm, Bound = bound, Shown = shown });
        }

        List<Reading> sorted = [.. readings.OrderBy(r => r.Time)];
        CountDuplicates(sorted, problems);
        return sorted;
    }

    private static (double Ppm, ReadingBound Bound) Value(PpmText text, Instrument instrument) => instrument.Kind switch
    {
        // Bars and beeps say only whether the gas is above the limit.
        InstrumentKind.Level or InstrumentKind.Hit =>
            (instrument.DetectionPpm, text.Bound == ReadingBound.Below || text.Number <= 0 ? ReadingBound.Below : ReadingBound.AtLeast),
        _ => text.Within(instrument.DetectionPpm, instrument.RangePpm),
    };

    private static void CountDuplicates(List<Reading> sorted, SurveyProblems problems)
    {
        var seen = new HashSet<(DateTimeOffset, string?)>();
        var duplicates = 0;
        DateTimeOffset? first = null;
        foreach (var reading in sorted)
        {
            if (seen.Add((reading.Time, reading.Instrument))) continue;
            duplicates++;
            first ??= reading.Time;
        }

        if (duplicates == 0) return;
        problems.Warn(null, "time", first!.Value.ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture), "reading-duplicate-time",
            $"{duplicates.ToString(CultureInfo.InvariantCulture)} readings have the time of the reading before them. They keep the order of the file.");
    }
}
