using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Sheets;

/// <summary>The walk sheet: the plan with the route and numbered probe points, then a table by fixture in walking order with a blank
/// for each reading.</summary>
public static class WalkSheet
{
    private const double WritingRow = 6.4;

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
            Subject = d => RoutePass.Draw(d, route), Named = new HashSet<string>(), Table = Rows(plan, route, words),
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
        yield return NoteItems.Line(words["walk.numbers"]);
        foreach (var warning in route.Warnings) yield return NoteItems.Bullet(words.Remark(warning.Message));
    }

    private static List<FlowItem> Rows(Plan plan, Route route, Words words)
    {
        var table = new Table(
        [
            new(words["walk.no"], 8, TextAnchor.End, true), new(words["walk.where"], 48), new(words["walk.spot"], 30), new(words["walk.method"], 26),
            new(words["walk.dwell"], 13, TextAnchor.End), new(words["walk.done"], 11, TextAnchor.Middle, TickBox: true), new(words["walk.reading"], 44),
        ], WritingRow);
        var points = route.Points.ToDictionary(p => p.Id);
        var rows = new List<IReadOnlyList<string>>();
        string? group = null;
        for (var i = 0; i < route.Order.Count; i++)
        {
            var point = points[route.Order[i]];
            var head = Group(plan, words, point);
            if (head != group) rows.Add([head]);
            group = head;
            rows.Add(
            [
                Numbers.Whole(i + 1), Where(plan, words, point), words.Say("walk.spot-height", words["spot." + point.Spot.Kebab()], words["height." + point.Height.Kebab()]),
                words["pass." + point.Pass.Kebab()], words.Say("walk.seconds", Numbers.Whole(point.DwellSeconds)), "", words.Remark(point.Note ?? ""),
            ]);
        }

        return [.. table.Items(rows)];
    }

    private static string Group(Plan plan, Words words, ProbePoint point)
    {
        if (plan.FindFixture(point.Fixture) is { } fixture)
        {
            var along = point.Along ?? 0;
            var parts = new List<string> { PlaceWords.Case(fixture), words["fixture." + fixture.Kind.Kebab()] };
            if (plan.RefrigerantAt(fixture, along) is { } gas) parts.Add(gas);
            if ((fixture.Sections.FirstOrDefault()?.Circuit ?? fixture.WalkInCircuit) is { } circuit) parts.Add(words.Say("walk.circuit", circuit));
            return string.Join(" · ", parts);
        }

        if (plan.Equipment.FirstOrDefault(e => e.Id == point.Equipment) is { } equipment)
        {
            return $"{words["equipment." + equipment.Kind.Kebab()]} {equipment.Id} · {words.Level(equipment.Level)}";
        }

        return plan.Rooms.FirstOrDefault(r => r.Id == point.Room)?.Name ?? words["plan.sales-floor"];
    }

    private static string Where(Plan plan, Words words, ProbePoint point)
    {
        if (plan.FindFixture(point.Fixture) is not { Front: not null } fixture || point.Along is not { } along) return words["walk.at-mark"];
        var section = PlaceWords.Section(fixture, along) is { } number && fixture.Sections.Count > 1 ? words.Say("place.section", number) + ", " : "";
        var side = point.OnBack ? words["walk.far-side"] : "";
        return section + words.Say("walk.from-left", Lengths.Plain(plan.Units, fixture.FromLeft(along))) + side;
    }
}
