using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Finds what a monitor was set to at each reading, and what that means for the number.</summary>
internal static class GasSettings
{
    /// <summary>The refrigerant set at each reading: the reading's own word, else the fixture's refrigerant, else what the same monitor
    /// was last set to (or next, at the start); null when nothing says.</summary>
    public static string?[] Of(Plan plan, Survey survey)
    {
        var set = new string?[survey.Readings.Count];
        for (var i = 0; i < set.Length; i++) set[i] = survey.Readings[i].Gas ?? Actual(plan, survey.Readings[i]);
        foreach (var instrument in survey.Instruments)
        {
            string? last = null;
            var own = Enumerable.Range(0, set.Length).Where(i => survey.InstrumentOf(survey.Readings[i]) == instrument).ToArray();
            foreach (var i in own) set[i] = last = set[i] ?? last;
            foreach (var i in own.Reverse()) set[i] = last = set[i] ?? last;
        }

        return set;
    }

    /// <summary>The refrigerant at the reading's place on a fixture; null when unknown or away from fixtures.</summary>
    public static string? Actual(Plan plan, Reading reading) =>
        plan.FindFixture(reading.Place.Fixture) is { } fixture ? plan.RefrigerantAt(fixture, reading.Place.Along ?? 0) : null;

    /// <summary>The factor from shown to true ppm; null when the monitor was set to another refrigerant and no table entry helps.</summary>
    public static double? Factor(string? set, string? actual, Instrument instrument, SurveySettings settings)
    {
        if (set is null || actual is null || set == actual) return 1;
        return instrument.Responses.Concat(settings.Responses).FirstOrDefault(r => r.SetTo == set && r.Actual == actual)?.Factor;
    }
}
