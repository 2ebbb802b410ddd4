using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The words beside a leak-zone detail: what, where, why, what to open in which order, and how to do it safely.</summary>
internal static class DetailNotes
{
    public static IEnumerable<FlowItem> Items(
        Plan plan, NetSurvey net, LocateResult located, Fixture fixture, LeakZone zone, string letter, Words words, SheetContext context)
    {
        yield return NoteItems.Heading(
            LiftedNotes.FoundOf(located, zone) is null ? words.Say("detail.heading", letter, words.Chance(zone.Probability)) : words.Say("detail.heading-confirmed", letter));
        if (LiftedNotes.Of(located, zone, words) is { Length: > 0 } lifted) yield return new TextItem(lifted, SheetStyle.SmallBold) { After = 0.4 };
        foreach (var line in SafetyNotes.ReachInAt(plan, net, fixture, zone.At, words)) yield return line;
        foreach (var line in ZoneNotes.Place(plan, words, fixture, zone)) yield return NoteItems.Line(line);
        yield return NoteItems.Line(words.Say("detail.peak", ZoneNotes.Peak(net, zone, words)));
        yield return NoteItems.Line(zone.StrengthHighKilogramsPerYear <= 0 ? words["detail.strength-unknown"] : words.Say(
            "detail.strength", words["strength." + zone.Strength], Lengths.Weight(plan.Units, zone.StrengthLowKilogramsPerYear), Lengths.Weight(plan.Units, zone.StrengthHighKilogramsPerYear)));
        yield return NoteItems.Line(words.Say("detail.reason", words.Remark(zone.Reason)), 1);
        foreach (var line in Supply.Lines(plan, fixture, zone.Center ?? 0, words)) yield return NoteItems.Line(line);
        if (LiftedNotes.Left(located, zone).Any())
        {
            yield return NoteItems.Rule();
            yield return NoteItems.Heading(words["detail.order"]);
            foreach (var row in OpeningOrder(plan, located, fixture, zone, words)) yield return row;
            yield return NoteItems.Gap(1.6);
            if (fixture.PanelsFromRight) yield return NoteItems.Muted(words["detail.from-right"]);
        }

        if (located.Next is { } next && next.Fixture == fixture.Id) yield return NoteItems.Line(ZoneNotes.Next(plan, words, next, onItsSheet: true), 1);
        yield return NoteItems.Rule();
        foreach (var item in CautionNotes.Opening(words, plan.RefrigerantAt(fixture, zone.Center ?? 0))) yield return item;
        yield return NoteItems.Rule();
        foreach (var item in SurveyNotes.Brief(net, words, context)) yield return item;
    }

    private static IEnumerable<FlowItem> OpeningOrder(Plan plan, LocateResult located, Fixture fixture, LeakZone zone, Words words)
    {
        var table = new Table([new("", 7, TextAnchor.End, true), new(words["detail.panel"], 20), new(words[ZoneNotes.IsDoubtful(zone) ? "detail.chance-if" : "detail.chance"], 34), new(words["detail.from-left"], 30), new(words["detail.minutes"], 12, TextAnchor.End)]);
        var rows = LiftedNotes.Left(located, zone).Take(6).Select((p, i) =>
        {
            var minutes = fixture.Panels.FirstOrDefault(f => f.Id == p.Id)?.Minutes;
            return (IReadOnlyList<string>)
            [
                Numbers.Whole(i + 1), PlaceWords.PanelNumber(p.Id), words.Chance(p.Probability),
                ZoneNotes.PanelSpan(plan, fixture, p), minutes is { } m ? Numbers.Whole(m) : "",
            ];
        });
        return table.Items(rows);
    }
}
