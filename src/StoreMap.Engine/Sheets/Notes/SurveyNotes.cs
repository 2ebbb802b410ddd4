using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Sheets;

/// <summary>What must be known to read a map of a survey: when, with what, at which refrigerant, against which background.</summary>
internal static class SurveyNotes
{
    public static IEnumerable<FlowItem> Items(Plan plan, NetSurvey net, Words words)
    {
        yield return NoteItems.Heading(words["survey.heading"]);
        foreach (var line in Lines(plan, net, words)) yield return NoteItems.Line(line);
    }

    public static IEnumerable<string> Lines(Plan plan, NetSurvey net, Words words)
    {
        var survey = net.Survey;
        var times = survey.Readings.Select(r => r.Time).Append(survey.Start).ToList();
        yield return words.Say("survey.when", Days.Of(survey.Start), Days.Clock(times.Min()), Days.Clock(times.Max()), survey.Readings.Count);
        foreach (var instrument in survey.Instruments)
        {
            var calibrated = instrument.Calibrated is { } day ? words.Say("survey.calibrated", Days.Of(day)) : words["survey.not-calibrated"];
            yield return words.Say("survey.instrument", instrument.Id, words["instrument." + instrument.Kind.Kebab()], Numbers.Ppm(instrument.DetectionPpm), calibrated);
        }

        var gases = plan.Systems.Where(s => s.Refrigerant is not null).Select(s => $"{s.Id} {s.Refrigerant}").ToList();
        if (gases.Count > 0) yield return words.Say("survey.gases", string.Join(", ", gases));
        yield return words.Say("survey.air", States(net, words));
        var rooms = net.Rooms.Select(r => words.Say("survey.room", r.Name, Numbers.Ppm(r.Ppm)) + (r.Raised ? words["survey.raised"] : "")).ToList();
        if (rooms.Count > 0) yield return words.Say("survey.background", string.Join(", ", rooms));
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
