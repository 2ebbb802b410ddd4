using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>A repair card per leak and source worth telling, half a page each: cautions, where to open, what to lock out, what to move;
/// blanks for parts, weights, both tests and the signature. What leaks is filled in where it is known.</summary>
internal static class RepairCards
{
    private const double Gutter = 6;
    private const double Pad = 2.5;
    private const double Line = 7;

    /// <summary>Blanks of a card: key of the caption, and the part of the width it takes.</summary>
    private static readonly (string Key, double Share)[][] Blanks =
    [
        [("card.component", 1)], [("card.fault", 1)], [("card.parts", 1)],
        [("card.recovered", 0.5), ("card.added", 0.5)],
        [("card.first-test", 1)], [("card.follow-up", 1)],
        [("card.fans-off", 0.5), ("card.product-temperature", 0.5)],
        [("card.certificate", 0.5), ("card.date", 0.5)], [("card.signature", 1)],
    ];

    /// <summary>The cards, in the order of the letters on the map.</summary>
    public static IReadOnlyList<FlowItem> Items(
        Plan plan, NetSurvey net, LocateResult located, ServiceRecord? record, Words words, double height)
    {
        var day = DateOnly.FromDateTime(net.Survey.Start.DateTime);
        IReadOnlyList<ServiceFinding> findings = record is null ? [] : ServiceFinding.Of(record, day);
        var cards = new List<FlowItem>();
        foreach (var (i, zone) in located.Zones.Index())
        {
            if (!ZoneNotes.IsTold(i, zone) || plan.FindFixture(zone.Fixture) is not { } fixture) continue;
            var along = zone.Center ?? 0;
            var finding = findings.FirstOrDefault(f => f.Repaired is null && f.Entry.Fixture == fixture.Id && (f.Entry.Along is not { } a || zone.Center is not { } c || Math.Abs(a - c) < 2.5));
            var found = LiftedNotes.FoundOf(located, zone);
            var toLift = found is null ? LiftedNotes.Left(located, zone).Take(2) : zone.Panels.Where(p => p.Id == found.Panel);
            var panels = toLift.Select(p => words.Say("card.panel", PlaceWords.PanelNumber(p.Id), ZoneNotes.PanelSpan(plan, fixture, p))).ToList();
            var lifted = LiftedNotes.Of(located, zone, words);
            List<FlowItem> lines =
            [
                .. found is null ? [NoteItems.Line(Words.Sentence(words.Say("card.chance", words.Chance(zone.Probability))))] : Array.Empty<FlowItem>(),
                .. lifted.Length > 0 ? [NoteItems.Line(lifted)] : Array.Empty<FlowItem>(),
                .. ZoneNotes.Place(plan, words, fixture, zone).Select(l => NoteItems.Line(l)),
                .. finding is null ? Array.Empty<FlowItem>() : [NoteItems.Line(words.Say("card.finding", FindingWords.Short(plan, finding, words), finding.Entry.WorkOrder ?? "–", Days.Of(finding.Opened)))],
                .. panels.Count > 0 ? [NoteItems.Line(words.Say(found is null ? "card.panels" : "card.panel-found", string.Join(", ", panels)))] : Array.Empty<FlowItem>(),
                .. panels.Count > 0 && fixture.PanelsFromRight ? [NoteItems.Line(words["detail.from-right"])] : Array.Empty<FlowItem>(),
                NoteItems.Line(words["card.lock-out"]),
                NoteItems.Line(words.Say("card.move", fixture.Product ?? words["card.all-product"])),
                .. Circuits(plan, fixture, along, words),
                NoteItems.Line(
                    words.Say("zone.peak", ZoneNotes.Peak(net, zone, words), words["strength." + zone.Strength])
                    + (Spot(net, fixture) is { } spot ? " " + words.Say("card.spot", words["spot." + spot.Kebab()]) : "")),
            ];
            // Seen behind the panel at this visit, or as the finding of the place has it.
            var component = found?.Component ?? finding?.Entry.Component;
            cards.Add(new Card(words.Say("card.title", LeakLetters.Of(i), PlaceWords.Case(fixture)), [.. SafetyNotes.ReachInAt(plan, net, fixture, zone.At, words), .. Cautions(plan, fixture, along, words)], lines, words, height)
            {
                Component = component is null ? "" : Listing.Typed(component),
            });
        }

        foreach (var (i, elsewhere) in located.Elsewhere.Index().Where(e => e.Item.Probability >= ZoneNotes.WorthTelling))
        {
            var fixture = plan.FindFixture(elsewhere.Near);
            cards.Add(new Card(
                words.Say("card.title-elsewhere", LeakLetters.Of(located.Zones.Count + i), CompareNotes.Tag(plan, elsewhere.Near)),
                [.. elsewhere.Unexplained ? [] : new[] { NoteItems.Caution(words["next.find-caution"]) }, .. fixture is null ? [] : Cautions(plan, fixture, 0, words)],
                [.. ZoneNotes.ElsewhereLines(plan, words, elsewhere).Select(l => NoteItems.Line(l)), .. fixture is null ? [] : Circuits(plan, fixture, 0, words)],
                words, height));
        }

        return cards;
    }

    private static IEnumerable<FlowItem> Cautions(Plan plan, Fixture fixture, double along, Words words)
    {
        yield return NoteItems.Caution(words["card.caution"]);
        if (Refrigerant.Find(plan.RefrigerantAt(fixture, along)) is not { } gas) yield break;
        foreach (var caution in CautionNotes.Gases([gas], words)) yield return NoteItems.Caution(caution);
    }

    private static IEnumerable<FlowItem> Circuits(Plan plan, Fixture fixture, double along, Words words)
    {
        foreach (var line in Supply.Lines(plan, fixture, along, words)) yield return NoteItems.Line(line);
        if (fixture.ChargeKilograms is { } own) yield return NoteItems.Line(words.Say("card.charge", Lengths.Charge(plan.Units, own)));
        else if (plan.SystemAt(fixture, along) is { ChargeKilograms: { } charge } system) yield return NoteItems.Line(words.Say("card.system-charge", system.Id, Lengths.Charge(plan.Units, charge)));
    }

    private static Spot? Spot(NetSurvey net, Fixture fixture) =>
        net.Readings.Where(r => r.IsHit && r.Reading.Place.Fixture == fixture.Id).MaxBy(r => r.NetPpm)?.Reading.Spot;

    /// <summary>One card: cautions across it, where and how at the left, blanks at the right.</summary>
    private sealed class Card(string title, IReadOnlyList<FlowItem> cautions, IReadOnlyList<FlowItem> lines, Words words, double height) : FlowItem
    {
        /// <summary>What leaks, filled in; empty where that is not known.</summary>
        public string Component { get; init; } = "";

        public override double Height(double width) => height;

        public override void Draw(SvgWriter svg, SheetPoint at, double width)
        {
            svg.Begin("card", "repair-card", title);
            var box = new SheetBox(at.X, at.Y, width, height - 2);
            svg.Rectangle(box, Paint.Line(SheetStyle.Medium));
            svg.Text(new(box.X + Pad, box.Y + Pad + SheetStyle.TextLarge), SheetStyle.Heading.Fit(title, width - (2 * Pad)), SheetStyle.Heading);
            var top = box.Y + Pad + SheetStyle.TextLarge + 4;
            var across = FlowColumns.Height(cautions, width - (2 * Pad));
            FlowColumns.Fill(svg, cautions, [new SheetBox(box.X + Pad, top, width - (2 * Pad), across + 0.1)]);
            top += across + 1;
            var column = (width - (2 * Pad) - Gutter) * 0.59;
            var left = FlowColumns.Fill(svg, lines, [new SheetBox(box.X + Pad, top, column, box.Bottom - top - Pad)]);
            var right = box.X + Pad + column + Gutter;
            DrawBlanks(svg, new SheetBox(right, top, box.Right - Pad - right, box.Bottom - top - Pad));
            if (left.Count > 0) svg.Text(new(box.X + Pad, box.Bottom - 1), words["card.more"], SheetStyle.SmallMuted);
            svg.End();
        }

        private void DrawBlanks(SvgWriter svg, SheetBox box)
        {
            var step = Math.Min(Line + 3, box.Height / Blanks.Length);
            foreach (var (row, cells) in Blanks.Index())
            {
                var x = box.X;
                // Captions under their lines, so that what is written stands clear of them.
                var y = box.Y + ((row + 1) * step) - 4;
                foreach (var (key, share) in cells)
                {
                    var cell = share * box.Width;
                    svg.Text(new(x, y + 0.8 + SheetStyle.TextSmall), SheetStyle.SmallMuted.Fit(words[key], cell - 2), SheetStyle.SmallMuted);
                    svg.Line(new(x, y), new(x + cell - 2, y), Paint.Line(SheetStyle.Hair));
                    if (key == "card.component" && Component.Length > 0) svg.Text(new(x + 1, y - 0.9), SheetStyle.Small.Fit(Component, cell - 3), SheetStyle.Small);
                    x += cell;
                }
            }
        }
    }
}
