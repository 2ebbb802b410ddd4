using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The heat-map sheet: the plan with the gas field, the readings and the leak zones called out, and everything needed to read it.</summary>
public static class HeatMapSheet
{
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
        var page = PlanPage.Choose(plan, set.PlanPaper, NotesArea);
        var head = new SheetHead("heat-map", words.Say("map.title-day", day), words["map.kind"]);
        var svg = set.Begin(head, page, words.Say("map.description", plan.Name, day));
        var scale = ScaleOf(net, field, context.ColourMap);
        var left = DrawPlan(svg, plan, net, field, located, page, words, scale, out var used);

        // What a reader can't do without comes first; the symbols of the plan are the first to go to another page.
        List<FlowItem> notes = located is null ? [] : [.. ZoneNotes.Items(plan, located, words), NoteItems.Rule()];
        notes.AddRange([.. LegendNotes.Subject(words, used, scale), NoteItems.Rule(), .. SurveyNotes.Items(plan, net, words), NoteItems.Rule()]);
        notes.AddRange([.. CautionNotes.Map(plan, words), NoteItems.Rule(), .. LegendNotes.PlanSymbols(words, used)]);
        var rest = PlanPages.FillNotes(svg, page, notes, words, left.Count > 0);
        PlanPages.Finish(set, svg, plan, page, head with { Name = "heat-map-notes", Title = words.Say("page.notes-to", head.Title) }, [], rest, left);
        return set.Finish();
    }

    /// <summary>The scale of a survey's map: from its detection level to the highest value drawn.</summary>
    internal static ConcentrationScale ScaleOf(NetSurvey net, GasField field, ColourMapKind kind)
    {
        var detection = net.Readings.Count == 0 ? 1 : net.Readings.Min(r => r.DetectionPpm);
        var highest = Math.Max(field.ActionPpm, 1);
        for (var i = 0; i < field.MeanPpm.Length; i++)
        {
            if (field.Evidence[i] && field.MeanPpm[i] > highest) highest = field.MeanPpm[i];
        }

        return new ConcentrationScale(detection > 0 ? detection : 1, field.ActionPpm, highest, kind);
    }

    private static IReadOnlyList<PlanLabel> DrawPlan(
        SvgWriter svg, Plan plan, NetSurvey net, GasField field, LocateResult? located, PlanPage page, Words words, ConcentrationScale scale,
        out IReadOnlyCollection<LegendSymbol> used)
    {
        var d = new PlanDrawing(svg, plan, page.To, page.PlanBox, words);
        var withHit = net.Readings.Where(r => r.IsHit && r.Reading.Place.Fixture is not null).Select(r => r.Reading.Place.Fixture!).ToHashSet();
        svg.Begin("plan", "plan", plan.Name);
        foreach (var pass in new Action[]
        {
            () => FloorPass.Draw(d), () => FieldPass.Draw(d, field, scale), () => ObstaclesPass.Draw(d), () => PitsPass.Draw(d),
            () => FixturesPass.Draw(d, filled: false), () => WallsPass.Draw(d), () => PipesPass.Draw(d), () => EntrancesPass.Draw(d), () => EquipmentPass.Draw(d),
            () => DropsPass.Draw(d), () => ReadingsPass.Draw(d, net),
            () => { if (located is not null) ZonesPass.Draw(d, located); },
            () => FixturesPass.AddLabels(d, withHit), () => RoomLabelsPass.AddLabels(d),
        })
        {
            pass();
        }

        var left = d.Labels.Place();
        d.Labels.Draw(svg);
        svg.End();
        used = d.Used;
        return left;
    }
}
