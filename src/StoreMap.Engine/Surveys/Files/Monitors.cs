namespace StoreMap.Surveys;

/// <summary>The monitors of a readings CSV, which names them but does not describe them.</summary>
internal static class Monitors
{
    /// <summary>The monitors used: those handed in first, then others in the order of the file with the option's properties.</summary>
    public static IReadOnlyList<Instrument> Of(List<ReadingDraft> drafts, SurveyReadOptions options)
    {
        var range = options.RangePpm;
        if (range is null)
        {
            // A file that shows more than the default range shows that the range is larger.
            var highest = drafts.Where(d => d.Text.Bound == ReadingBound.Exact).Select(d => d.Text.Number ?? 0).DefaultIfEmpty(0).Max();
            range = highest > SurveyDefaults.RangePpm ? highest + Math.Max(options.ResolutionPpm, 1) : SurveyDefaults.RangePpm;
        }

        var list = new List<Instrument>(options.Instruments);
        var known = new HashSet<string>(list.Select(i => i.Id), StringComparer.Ordinal);
        if (list.Count == 0 && drafts.Exists(d => d.Reading.Instrument is null)) Use(SurveyDefaults.InstrumentId);
        foreach (var draft in drafts)
        {
            if (draft.Reading.Instrument is { } id) Use(id);
        }

        return list;

        void Use(string id)
        {
            if (!known.Add(id)) return;
            list.Add(new Instrument
            {
                Id = id, Kind = options.Kind, DelaySeconds = options.DelaySeconds, T90Seconds = options.T90Seconds,
                ResolutionPpm = options.ResolutionPpm, DetectionPpm = options.DetectionPpm, RangePpm = range.Value,
                Responses = options.Responses,
            });
        }
    }
}
