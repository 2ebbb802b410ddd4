using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>What must be known to read a map of a survey: when, with what, at which refrigerant, against which background.</summary>
internal static class SurveyNotes
{
    public static IEnumerable<FlowItem> Items(Plan plan, NetSurvey net, Words words, SheetContext context)
    {
        yield return NoteItems.Heading(words["survey.heading"]);
        foreach (var line in When(net, words).Concat(RestsOn(words, context)).Concat(Lines(plan, net, words))) yield return NoteItems.Line(line);
    }

    /// <summary>When, and on which visits the result rests.</summary>
    public static IEnumerable<FlowItem> Brief(NetSurvey net, Words words, SheetContext context)
    {
        foreach (var line in When(net, words).Take(1).Concat(RestsOn(words, context))) yield return NoteItems.Muted(line);
    }

    /// <summary>A room by its name; floor in no room is the sales floor.</summary>
    public static string RoomName(RoomBackground room, Words words) => room.Room is null ? words["plan.sales-floor"] : room.Name;

    /// <summary>Which visits and records the result rests on: the sheets of one job name the same.</summary>
    public static IEnumerable<string> RestsOn(Words words, SheetContext context)
    {
        if (context.RestsOn.Count == 0 && !context.WithServiceRecord) yield break;
        var key = context.WithServiceRecord ? "survey.rests-on-record" : "survey.rests-on";
        yield return words.Say(key, string.Join(", ", context.RestsOn.Select(Days.Of)));
    }

    /// <summary>A monitor as the sheets call it: by its id, unless that is only what a file without ids gives it.</summary>
    public static string Monitor(Instrument instrument, Words words)
    {
        var kind = words["instrument." + instrument.Kind.Kebab()];
        return instrument.Id == SurveyDefaults.InstrumentId ? kind : words.Say("survey.monitor", instrument.Id, kind);
    }

    private static IEnumerable<string> When(NetSurvey net, Words words)
    {
        var survey = net.Survey;
        var times = survey.Readings.Select(r => r.Time).Append(survey.Start).ToList();
        yield return words.Say("survey.when", Days.Of(survey.Start), Days.Clock(times.Min()), Days.Clock(times.Max()), survey.Readings.Count);
        foreach (var instrument in survey.Instruments)
        {
            var calibrated = instrument.Calibrated is { } day ? words.Say("survey.calibrated", Days.Of(day)) : words["survey.not-calibrated"];
            yield return words.Say("survey.instrument", Words.Sentence(Monitor(instrument, words)), Numbers.Ppm(instrument.DetectionPpm), calibrated);
        }
    }

    private static IEnumerable<string> Lines(Plan plan, NetSurvey net, Words words)
    {
        var gases = plan.Systems.Where(s => s.Refrigerant is not null).Select(s => $"{s.Id} {s.Refrigerant}").ToList();
        if (gases.Count > 0) yield return words.Say("survey.gases", string.Join(", ", gases));
        yield return words.Say("survey.air", States(net, words));
        // Rooms of one level together, the raised ones by themselves.
        var rooms = net.Rooms.GroupBy(r => (Ppm: Numbers.Ppm(r.Ppm), r.Raised))
            .Select(g => words.Say("survey.room", string.Join(", ", g.Select(r => RoomName(r, words))), g.Key.Ppm) + (g.Key.Raised ? words["survey.raised"] : "")).ToList();
        if (rooms.Count > 0) yield return words.Say("survey.background", string.Join("; ", rooms));
        foreach (var less in net.Readings.Where(r => r.Reason is not null).GroupBy(r => r.Reason!)) yield return words.Say("survey.less", less.Count(), words.Remark(less.Key));
        if (net.Readings.Count > 0)
        {
            var actions = net.Readings.Select(r => r.ActionPpm).Distinct().Order().Select(Numbers.Ppm).Distinct();
            yield return words.Say("survey.action", string.Join(words["survey.or"], actions));
        }
    }

    private static string States(NetSurvey net, Words words)
    {
        var states = net.Readings.GroupBy(r => r.Reading.Air).OrderBy(g => g.Key).Select(g => words.Say("survey.state", words["air." + g.Key.Kebab()], g.Count()));
        return string.Join(", ", states);
    }
}
