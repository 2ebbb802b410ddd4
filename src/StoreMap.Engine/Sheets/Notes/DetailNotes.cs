using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The words beside a leak-zone detail: what, where, why, what to open in which order, and how to do it safely.</summary>
internal static class DetailNotes
{
    public static IEnumerable<FlowItem> Items(
        Plan plan, NetSurvey net, LocateResult located, Fixture fixture, LeakZone zone, string letter, Words words)
    {
        yield return NoteItems.Heading(words.Say("detail.heading", letter, Numbers.Chance(zone.Probability)));
        foreach (var line in ZoneNotes.Lines(plan, words, fixture, zone).Skip(1)) yield return NoteItems.Line(line);
        yield return NoteItems.Line(words.Say(
            "detail.strength", words["strength." + zone.Strength], Lengths.Weight(plan.Units, zone.StrengthLowKilogramsPerYear), Lengths.Weight(plan.Units, zone.StrengthHighKilogramsPerYear)));
        yield return NoteItems.Line(words.Say("detail.reason", zone.Reason), 1);
        foreach (var line in Supply(plan, fixture, zone, words)) yield return NoteItems.Line(line);
        if (zone.Panels.Count > 0)
        {
            yield return NoteItems.Rule();
            yield return NoteItems.Heading(words["detail.order"]);
            foreach (var row in OpeningOrder(plan, located, fixture, zone, words)) yield return row;
            yield return NoteItems.Gap(1.6);
        }

        if (located.Next is { } next && next.Fixture == fixture.Id) yield return NoteItems.Line(words.Say("zone.next", ZoneNotes.NextPlace(plan, words, next), next.Why), 1);
        yield return NoteItems.Rule();
        foreach (var item in CautionNotes.Opening(words, plan.RefrigerantAt(fixture, zone.Center ?? 0))) yield return item;
        yield return NoteItems.Rule();
        foreach (var item in SurveyNotes.Items(plan, net, words)) yield return item;
    }

    private static IEnumerable<string> Supply(Plan plan, Fixture fixture, LeakZone zone, Words words)
    {
        var section = fixture.Sections.LastOrDefault(s => s.From <= (zone.Center ?? 0)) ?? fixture.Sections.FirstOrDefault();
        var circuit = plan.Circuits.FirstOrDefault(c => c.Id == (section?.Circuit ?? fixture.WalkInCircuit));
        if (circuit is not null) yield return words.Say("detail.circuit", circuit.Id, plan.SystemAt(fixture, zone.Center ?? 0)?.Id ?? "?", plan.RefrigerantAt(fixture, zone.Center ?? 0) ?? "?");
        var shutoffs = circuit?.Shutoffs.Select(s => s.Note).OfType<string>().ToList() ?? [];
        if (shutoffs.Count > 0) yield return words.Say("detail.shutoff", string.Join(", ", shutoffs));
        var others = circuit is null ? [] : plan.Fixtures.Where(f => f.Id != fixture.Id && (f.WalkInCircuit == circuit.Id || f.Sections.Any(s => s.Circuit == circuit.Id))).Select(f => f.Tag).ToList();
        if (others.Count > 0) yield return words.Say("detail.shared", string.Join(", ", others));
    }

    private static IEnumerable<FlowItem> OpeningOrder(Plan plan, LocateResult located, Fixture fixture, LeakZone zone, Words words)
    {
        var table = new Table([new("", 7, TextAnchor.End, true), new(words["detail.panel"], 20), new(words["detail.chance"], 34), new(words["detail.from-left"], 30), new(words["detail.minutes"], 12, TextAnchor.End)]);
        var order = located.Open.Index().ToDictionary(o => o.Item, o => o.Index);
        var rows = zone.Panels.OrderBy(p => order.GetValueOrDefault(p.Id, int.MaxValue)).ThenByDescending(p => p.Probability).Where(p => p.Probability >= 0.01).Take(6).Select((p, i) =>
        {
            double a = fixture.FromLeft(p.From), b = fixture.FromLeft(p.To);
            var minutes = fixture.Panels.FirstOrDefault(f => f.Id == p.Id)?.Minutes;
            return (IReadOnlyList<string>)
            [
                Numbers.Whole(i + 1), PlaceWords.PanelNumber(p.Id), Numbers.Chance(p.Probability),
                $"{Lengths.Plain(plan.Units, Math.Min(a, b))} – {Lengths.Plain(plan.Units, Math.Max(a, b))}", minutes is { } m ? Numbers.Whole(m) : "",
            ];
        });
        return table.Items(rows);
    }
}
