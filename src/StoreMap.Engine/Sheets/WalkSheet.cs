using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Sheets;

/// <summary>The walk sheet: the plan with the route and numbered probe points, then a table by fixture in walking order with a blank
/// for each reading.</summary>
public static class WalkSheet
{
    /// <summary>Draws the plan and the tables.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="route">The route.</param>
    /// <param name="context">What the sheets say of themselves.</param>
    /// <returns>The plan first, then the tables.</returns>
    public static IReadOnlyList<Sheet> Draw(Plan plan, Route route, SheetContext context)
    {
        var set = new SheetSet(plan, context, "");
        var words = set.Words;
        var head = new SheetHead("walk", words["walk.title"], words["walk.kind"]);
        new PlanSheet
        {
            Set = set, Plan = plan, Head = head, Behind = head with { Name = "walk-table", Title = words["walk.table"] },
            Description = words.Say("walk.description", plan.Name, route.Order.Count), Lines = false,
            Subject = d => RoutePass.Draw(d, route), Named = new HashSet<string>(), Table = WalkTable.Items(plan, route, words), BehindColumns = 2,
            Notes = used =>
            [
                .. Summary(plan, route, words), NoteItems.Rule(), .. LegendNotes.Subject(words, used, null), NoteItems.Rule(),
                .. CautionNotes.Walking(plan, words), NoteItems.Rule(), .. LegendNotes.PlanSymbols(words, used),
            ],
        }.Draw();
        return set.Finish();
    }

    private static IEnumerable<FlowItem> Summary(Plan plan, Route route, Words words)
    {
        var m = route.Minutes;
        yield return NoteItems.Heading(words.Say("walk.summary", route.Order.Count, Lengths.Rough(plan.Units, route.Length)));
        yield return NoteItems.Line(words.Say("walk.minutes", Numbers.Whole(m.Total), Numbers.Whole(m.Walking), Numbers.Whole(m.Probing), Numbers.Whole(m.Handling), Numbers.Whole(m.Fixed)));
        if (route.Forecast is { } forecast) yield return NoteItems.Line(words.Say("walk.likely", Numbers.Whole(forecast.Likely), Numbers.Whole(forecast.BadNight)));
        if (route.Clock is { } clock)
            yield return NoteItems.Line(words.Say("walk.clock", RouteHours.Text(clock.Begin), RouteHours.Text(clock.End)));
        if (RouteHours.Line(plan, route, words) is { } hours) yield return NoteItems.Line(hours);
        yield return NoteItems.Line(words["walk.numbers"]);
        if (route.Points.Any(LineDrops.Marked)) yield return NoteItems.Line(words["walk.drops"]);
        foreach (var warning in route.Warnings) yield return NoteItems.Bullet(words.Remark(warning.Message));
        if (route.LeftOut.Count > 0) yield return new TextItem(words["walk.left-out"], SheetStyle.SmallBold) { After = 0.4 };
        foreach (var place in route.LeftOut.GroupBy(p => plan.FindFixture(p.Fixture) is { } fixture ? PlaceWords.Case(fixture) : PlaceWords.Of(plan, words, p)))
            yield return NoteItems.Bullet(words.Say("walk.left-out-place", place.Key, string.Join(", ", place.Select(p => p.Id))));
    }
}
