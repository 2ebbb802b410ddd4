using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Sheets;

/// <summary>The table of the walk sheet: a block a fixture in walking order, a row a probe point with a box to tick and a blank for the
/// reading. What all points of a block share stands once above them; each row has the point's id, which a readings file calls it by.</summary>
internal static class WalkTable
{
    private const double WritingRow = 5.4;

    /// <summary>The blocks, the head of the table before them.</summary>
    public static List<FlowItem> Items(Plan plan, Route route, Words words)
    {
        var table = new Table(
        [
            new(words["walk.no"], 10.5, TextAnchor.End, true), new(words["walk.id"], 18), new(words["walk.where"], 33.5),
            new(words["walk.done"], 7, TextAnchor.Middle, TickBox: true), new(words["walk.reading"], 15),
        ], WritingRow);
        var head = table.Items([]).First();
        var items = new List<FlowItem> { head };
        if (route.FirstGas is { } first) items.Add(Step(table, head, words.Say("walk.gas-first", first)));
        var points = route.Points.ToDictionary(p => p.Id);
        var ordered = route.Order.Select((id, i) => (Number: i + 1, Point: points[id])).ToList();
        var told = new HashSet<string>();
        var gases = route.GasChanges.ToDictionary(c => c.Before);
        var checks = (route.Clock?.Checks ?? []).Where(c => c.Kind != TimedCheckKind.Missed).ToLookup(c => c.After ?? Before(route, c.Points[0]));
        var visits = (route.Clock?.Visits ?? []).Where(v => v.Kind != TimedVisitKind.Met).ToLookup(v => v.Before);
        for (var from = 0; from < ordered.Count;)
        {
            var to = from + 1;
            while (to < ordered.Count && Owner(ordered[to].Point) == Owner(ordered[from].Point) && !gases.ContainsKey(ordered[to].Point.Id) && !visits.Contains(ordered[to].Point.Id)
                && !checks.Contains(ordered[to - 1].Point.Id)) to++;
            items.AddRange(visits[ordered[from].Point.Id].Select(v => Step(table, head, Entry(words, v))));
            if (gases.TryGetValue(ordered[from].Point.Id, out var gas)) items.Add(Step(table, head, words.Say("walk.gas", gas.Gas, Numbers.Whole(gas.Minutes))));
            var block = ordered[from..to];
            items.Add(Block(plan, words, table, head, block, told));
            items.AddRange(block.SelectMany(b => checks[b.Point.Id]).Select(c => Step(table, head, Check(words, c))));
            from = to;
        }

        return items;
    }

    /// <summary>Something to do between two points, with a box to tick.</summary>
    private static FlowBlock Step(Table table, FlowItem head, string what)
    {
        var row = table.Step(what);
        return new FlowBlock([row], [], row) { RepeatAtHead = head, KeepWithNext = true };
    }

    private static string? Before(Route route, string point)
    {
        var at = route.Order.ToList().IndexOf(point);
        return at > 0 ? route.Order[at - 1] : null;
    }

    private static string Entry(Words words, TimedVisit v)
    {
        var hours = RouteHours.Text(words, v.Place);
        return v.Kind == TimedVisitKind.Wait
            ? words.Say("walk.wait", v.Place.Name, hours, RouteHours.Text(v.At.Add(TimeSpan.FromMinutes(v.WaitMinutes))), Numbers.Whole(v.WaitMinutes))
            : words.Say("walk.outside", v.Place.Name, hours, RouteHours.Text(v.At));
    }

    private static string Check(Words words, TimedCheck c)
    {
        static string Time(TimeOnly time) => RouteHours.Text(time);
        return c.Kind == TimedCheckKind.OnTheWay
            ? words.Say("walk.met", Time(c.From), Time(c.To), c.Circuit, c.Cooling, c.Points.Count)
            : words.Say("walk.defrost", Time(c.From), Time(c.To), c.Circuit, c.Cooling, c.Points.Count, Time(c.At!.Value), Numbers.Whole(c.Minutes));
    }

    /// <summary>Points of one owner are one block; a background stands alone, so that it is not taken for the fixture's.</summary>
    private static (string?, string?) Owner(ProbePoint p) => (p.Fixture, p.Fixture is null ? p.Id : null);

    private static FlowBlock Block(
        Plan plan, Words words, Table table, FlowItem head, List<(int Number, ProbePoint Point)> block, HashSet<string> told)
    {
        var title = Title(plan, words, block[0].Point);
        var usual = block.GroupBy(b => (b.Point.Pass, b.Point.Spot, b.Point.Height, b.Point.DwellSeconds)).OrderByDescending(g => g.Count()).First().First().Point;
        List<FlowItem> above = [table.Items([[title]]).Last(), Air(), new TextItem(Method(words, usual), SheetStyle.Small, "") { After = 0.4 }];
        // A background is read for what comes next, and what an open department's note says the sheet says anyway.
        var background = block[0].Point.Pass == ProbePass.Background;
        if (!background || block[0].Point.Room is not null) above.AddRange(Notes(block, told).Select(n => Note(words.Remark(n))));
        var rows = block.Select(b => (IReadOnlyList<string>)[Numbers.Whole(b.Number), b.Point.Id, Where(plan, words, b.Point, usual), "", ""]);
        var again = table.Items([[words.Say("walk.continued", title)]]).Last();
        return new FlowBlock(above, [.. table.Items(rows).Skip(1)], again) { RepeatAtHead = head, KeepWithNext = background, After = 1 };
    }

    private static TextItem Note(string text) => new(text, SheetStyle.SmallMuted, "") { After = 0.4 };

    /// <summary>Keeps text clear of the rule above it.</summary>
    private static DrawnItem Air() => new(0.9, (_, _, _) => { });

    /// <summary>What the notes of a block say that the table has not said before.</summary>
    private static List<string> Notes(List<(int Number, ProbePoint Point)> block, HashSet<string> told) =>
        [.. block.SelectMany(b => Sentences(b.Point)).Where(told.Add)];

    /// <summary>The sentences of a note without what the row says anyway.</summary>
    private static IEnumerable<string> Sentences(ProbePoint point)
    {
        if (point.Note is null || point.Pass == ProbePass.Zigzag) return [];
        var note = point.Note;
        var door = point.Pass == ProbePass.Doors ? note.IndexOf(": ", StringComparison.Ordinal) : -1;
        if (door >= 0) note = char.ToUpperInvariant(note[door + 2]) + note[(door + 3)..];
        return note.Split(". ").Select(s => s.TrimEnd('.') + ".").Where(s => !LineDrops.IsMark(s));
    }

    private static string Method(Words words, ProbePoint p)
    {
        var pass = words["pass." + p.Pass.Kebab()];
        var hold = Hold(words, p);
        return p.Pass is ProbePass.Zero or ProbePass.Background or ProbePass.Checklist or ProbePass.Own or ProbePass.LowHigh ? $"{pass} · {hold}"
            : pass == words["spot." + p.Spot.Kebab()] ? $"{SpotOf(words, p)} · {hold}" : $"{pass} · {SpotOf(words, p)} · {hold}";
    }

    /// <summary>How long the tip is held, or how long to look things through; not torn between number and unit.</summary>
    private static string Hold(Words words, ProbePoint p) =>
        (p.DwellSeconds >= 120 ? words.Say("walk.minutes-long", Numbers.Whole(p.DwellSeconds / 60)) : words.Say("walk.hold", Numbers.Whole(p.DwellSeconds))).Replace(' ', '\u00a0');

    private static string SpotOf(Words words, ProbePoint p) => words.Say("walk.spot-height", words["spot." + p.Spot.Kebab()], words["height." + p.Height.Kebab()]);

    /// <summary>Section and distance from the left end, and what differs from the rest of the block.</summary>
    private static string Where(Plan plan, Words words, ProbePoint point, ProbePoint usual)
    {
        var parts = new List<string>();
        if (plan.FindFixture(point.Fixture) is { Front: not null } fixture && point.Along is { } along)
        {
            var section = PlaceWords.Section(fixture, along) is { } number && fixture.Sections.Count > 1 ? words.Say("walk.section", number) + " " : "";
            parts.Add(section + Lengths.Plain(plan.Units, fixture.FromLeft(along)) + (point.OnBack ? words["walk.far-side"] : ""));
        }

        // Inside a walk-in there is no front to speak of.
        if (point.Pass == ProbePass.LowHigh) parts.Add(words["height." + point.Height.Kebab()]);
        else if ((point.Spot, point.Height) != (usual.Spot, usual.Height)) parts.Add(SpotOf(words, point));
        if (point.DwellSeconds != usual.DwellSeconds) parts.Add(Hold(words, point));
        if (LineDrops.Marked(point)) parts.Add(words["walk.drop"]);
        if (parts.Count == 0) parts.Add(words["walk.at-mark"]);
        return string.Join(" · ", parts);
    }

    private static string Title(Plan plan, Words words, ProbePoint point)
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
            return $"{PlaceWords.Equipment(words, equipment)} · {words.Level(equipment.Level)}";
        }

        return plan.Rooms.FirstOrDefault(r => r.Id == point.Room)?.Name ?? words["plan.sales-floor"];
    }
}
