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
        var zeroed = new List<ZeroEvent>();
        foreach (var part in parts)
        {
            var names = new Dictionary<string, string>();
            foreach (var instrument in part.Instruments) names[instrument.Id] = Adopt(instruments, instrument);
            zeroed.AddRange(part.Zeroed.Select(z => z with { Instrument = names[z.Instrument ?? part.Instruments[0].Id] }));
            readings.AddRange(part.Readings.Select(r => r with { Instrument = names[part.InstrumentOf(r).Id] }));
        }

        return parts[0] with
        {
            Instruments = instruments,
            Readings = [.. readings.OrderBy(r => r.Time)],
            Technicians = [.. parts.SelectMany(p => p.Technicians).Distinct()],
            Coverage = [.. parts.SelectMany(p => p.Coverage)],
            Findings = [.. parts.SelectMany(p => p.Findings)],
            Zeroed = [.. zeroed.OrderBy(z => z.Time)],
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

            if (Same(same, instrument with { Id = id })) return id;
            id = FormattableString.Invariant($"{instrument.Id}-{n}");
        }
    }

    // Lists compare by identity in a record, so the tables are compared by their entries.
    private static bool Same(Instrument a, Instrument b) => a.Responses.SequenceEqual(b.Responses) && a with { Responses = b.Responses } == b;
}
