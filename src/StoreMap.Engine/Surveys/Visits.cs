namespace StoreMap.Surveys;

/// <summary>Puts surveys together into visits: those of one store and one date are one visit.</summary>
public static class Visits
{
    /// <summary>Groups surveys by the local date of their start.</summary>
    /// <param name="surveys">Surveys of one store, in any order.</param>
    /// <returns>One survey a date, oldest first, readings in time order. Instruments of the same id and the same settings
    /// are one; of the same id and other settings they are kept apart by a number.</returns>
    public static IReadOnlyList<Survey> ByDate(IReadOnlyList<Survey> surveys) =>
        [.. surveys.GroupBy(s => DateOnly.FromDateTime(s.Start.DateTime)).OrderBy(g => g.Key).Select(g => Join([.. g.OrderBy(s => s.Start)]))];

    private static Survey Join(List<Survey> parts)
    {
        if (parts.Count == 1) return parts[0];
        var instruments = new List<Instrument>();
        var readings = new List<Reading>();
        foreach (var part in parts)
        {
            var names = new Dictionary<string, string>();
            foreach (var instrument in part.Instruments) names[instrument.Id] = Adopt(instruments, instrument);
            readings.AddRange(part.Readings.Select(r => r with { Instrument = names[part.InstrumentOf(r).Id] }));
        }

        return parts[0] with
        {
            Instruments = instruments,
            Readings = [.. readings.OrderBy(r => r.Time)],
            Technicians = [.. parts.SelectMany(p => p.Technicians).Distinct()],
            Coverage = [.. parts.SelectMany(p => p.Coverage)],
        };
    }

    private static string Adopt(List<Instrument> known, Instrument instrument)
    {
        var id = instrument.Id;
        for (var n = 2; ; n++)
        {
            var same = known.Find(k => k.Id == id);
            if (same is null)
            {
                known.Add(instrument with { Id = id });
                return id;
            }

            if (same == instrument with { Id = id }) return id;
            id = FormattableString.Invariant($"{instrument.Id}-{n}");
        }
    }
}
