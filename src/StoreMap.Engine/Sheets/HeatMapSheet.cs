using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The heat-map sheet: the plan with the gas field, the readings and the leak zones called out, and everything needed to read it.</summary>
public static class HeatMapSheet
{
    /// <summary>The sheet's name.</summary>
    internal const string Name = "heat-map";

    /// <summary>Cases warned of by name.</summary>
    private const int MostWarned = 3;

    /// <summary>Area that legend, call-outs and cautions need, square millimetres.</summary>
    private const double NotesArea = 21000;

    /// <summary>Draws the map, and a page of notes when something finds no room on it.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="net">The survey with its backgrounds taken off.</param>
    /// <param name="field">Net concentration over the plan.</param>
    /// <param name="located">Leak zones; null for a map without.</param>
    /// <param name="context">What the sheet says of itself.</param>
    /// <returns>The map first.</returns>
    public static IReadOnlyList<Sheet> Draw(Plan plan, NetSurvey net, GasField field, LocateResult? located, SheetContext context)
    {
        var day = Days.Of(net.Survey.Start);
        var set = new SheetSet(plan, context, day);
        var words = set.Words;
        var head = new SheetHead(Name, words.Say("map.title-day", day), words["map.kind"]);
        var scale = ScaleOf(net, field, context.ColourMap);
        var contours = FieldContours.Of(field, scale);
        new PlanSheet
        {
            Set = set, Plan = plan, Head = head, Behind = head with { Name = Name + "-notes", Title = words.Say("page.notes-to", head.Title) },
            Description = words.Say("map.description", plan.Name, day), NotesArea = NotesArea,
            Field = d => FieldPass.Draw(d, contours),
            Subject = d =>
            {
                ReadingsPass.Draw(d, net);
                if (located is not null) ZonesPass.Draw(d, located);
            },
            Named = net.Readings.Where(r => r.IsHit && r.Reading.Place.Fixture is not null).Select(r => r.Reading.Place.Fixture!).ToHashSet(),
            // What a reader can't do without comes first; the symbols of the plan are the first to go to another page.
            Notes = used =>
            [
                .. located is null ? [] : ZoneNotes.Items(plan, net, located, words).Append(NoteItems.Rule()),
                .. LegendNotes.Subject(words, used, scale), NoteItems.Rule(), .. CautionNotes.Map(plan, words, SafetyNotes.ReachIn(plan, SafetyVerdict.Of(plan, net), words, MostWarned)), NoteItems.Rule(),
                .. SurveyNotes.Items(plan, net, words, context), NoteItems.Rule(), .. LegendNotes.PlanSymbols(words, used),
            ],
        }.Draw();
        return set.Finish();
    }

    /// <summary>The scale of a survey's map: from its detection level to the highest value drawn.</summary>
    internal static ConcentrationScale ScaleOf(NetSurvey net, GasField field, ColourMapKind kind)
    {
        var detection = net.Readings.Count == 0 ? 1 : net.Readings.Min(r => r.DetectionPpm);
        return new ConcentrationScale(detection > 0 ? detection : 1, field.ActionPpm, HighestOf(field), kind);
    }

    /// <summary>Highest value drawn, net ppm.</summary>
    internal static double HighestOf(GasField field)
    {
        var highest = Math.Max(field.ActionPpm, 1);
        for (var i = 0; i < field.MedianPpm.Length; i++)
        {
            if (field.Evidence[i] && field.MedianPpm[i] > highest) highest = field.MedianPpm[i];
        }

        return highest;
    }
}
