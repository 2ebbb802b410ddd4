using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The plain words of a report's first page.</summary>
internal static class ReportNotes
{
    /// <summary>Names that whoever acts on them needs in full, before a list of them is cut.</summary>
    private const int MostNames = 8;

    /// <summary>Gas over the limit this near a leak's place is warned of there too, metres: it gathers under the ends of joined cases.</summary>
    private const double BesideMetres = 3;

    private static readonly string[] Terms = ["above-room", "letters", "zone", "chance", "no-leak-seen", "strength", "no-longer-seen", "survey"];

    private static readonly string[] Signers = ["report.sign-technician", "report.sign-store"];

    /// <summary>What is wrong where staff reach in comes first; then the highest reading in the air that people breathe beside the exposure
    /// limit, in one sentence.</summary>
    public static IEnumerable<FlowItem> Safety(Plan plan, NetSurvey net, Words words, int most)
    {
        yield return NoteItems.Heading(words["report.safe"]);
        var verdict = SafetyVerdict.Of(plan, net);
        if (verdict.ReachIn.Count > 0)
        {
            var places = verdict.ReachIn.Select(r => ReachInPlace(plan, r, words)).ToList();
            yield return new TextItem(words.Say("safe.reach-in", Listing.Of(places, most, words)), SheetStyle.SmallBold) { After = 0.8 };
        }

        yield return Breathed(plan, verdict, words);
        if (verdict.Breathed == SafetyLevel.Under && verdict.NotRead.Count > 0)
        {
            yield return NoteItems.Line(words.Say("safe.not-read", Listing.Of([.. verdict.NotRead.Select(id => RoomName(plan, id, words))], 2 * most, words)), 0.8);
        }

        if (verdict.ReachIn.Count == 0 && verdict.HighestAtCase is { } inside)
        {
            yield return NoteItems.Line(words.Say("safe.inside", Level(inside, words), CompareNotes.Tag(plan, inside.Reading.Place.Fixture!)), 0.8);
        }
    }

    /// <summary>The prohibition for one case, for the papers that a technician holds at it; empty where its readings call for none.</summary>
    public static IEnumerable<FlowItem> ReachInAt(Plan plan, NetSurvey net, Fixture fixture, PlanPoint at, Words words)
    {
        var over = SafetyVerdict.Of(plan, net).ReachIn;
        if (over.FirstOrDefault(r => r.Reading.Reading.Place.Fixture == fixture.Id) is { } own)
        {
            yield return NoteItems.Caution(words.Say("safe.reach-in", words.Say(own.Reading.Reading.Air == AirState.FansOff ? "safe.here-still" : "safe.here", Level(own.Reading, words), Limit(own, words))));
        }
        else if (over.FirstOrDefault(r => r.Reading.Reading.Place.At.DistanceTo(at) < BesideMetres) is { } beside)
        {
            yield return NoteItems.Caution(words.Say("safe.reach-in", ReachInPlace(plan, beside, words)));
        }
    }

    private static string ReachInPlace(Plan plan, LimitReading r, Words words) => words.Say(
        r.Reading.Reading.Air == AirState.FansOff ? "safe.reading-at-still" : "safe.reading-at", CompareNotes.Tag(plan, r.Reading.Reading.Place.Fixture!), Level(r.Reading, words), Limit(r, words));

    private static string Limit(LimitReading r, Words words) =>
        double.IsFinite(r.LimitPpm) ? words.Say("safe.limit", Numbers.Whole(r.LimitPpm), r.Gas ?? "") : words["safe.no-limit"];

    private static TextItem Breathed(Plan plan, SafetyVerdict verdict, Words words)
    {
        if (verdict.LimitPpm is null && verdict.Breathed != SafetyLevel.Over) return new TextItem(words["safe.unknown-limit"], SheetStyle.SmallBold) { After = 0.8 };
        if (verdict.Breathed == SafetyLevel.Over && verdict.Highest is null) return new TextItem(words["safe.over-no-limit"], SheetStyle.SmallBold) { After = 0.8 };
        if (verdict.Highest is not { } highest) return new TextItem(words.Say("safe.unknown", Numbers.Whole(verdict.LimitPpm ?? 0)), SheetStyle.SmallBold) { After = 0.8 };
        var text = words.Say(verdict.Breathed == SafetyLevel.Over ? "safe.over" : "safe.under", Level(highest.Reading, words), PlaceOf(plan, highest.Reading, words), Numbers.Whole(highest.LimitPpm), highest.Gas ?? "");
        return new TextItem(text, verdict.Breathed == SafetyLevel.Over ? SheetStyle.SmallBold : SheetStyle.Small) { After = 0.8 };
    }

    /// <summary>A level as shown, with "over" or "under" where the monitor could only say that.</summary>
    public static string Level(NetReading r, Words words) => r.Reading.Bound switch
    {
        ReadingBound.AtLeast => words.Say("safe.level-over", Numbers.Ppm(r.Reading.Ppm)),
        ReadingBound.Below => words.Say("safe.level-under", Numbers.Ppm(r.Reading.Ppm)),
        _ => words.Say("safe.level", Numbers.Ppm(r.Reading.Ppm)),
    };

    /// <summary>Where a reading of a room's air was taken.</summary>
    public static string PlaceOf(Plan plan, NetReading r, Words words) =>
        r.Reading.Place.Fixture is { } id ? CompareNotes.Tag(plan, id) : RoomName(plan, r.Reading.Place.Room, words);

    private static string RoomName(Plan plan, string? id, Words words) =>
        id is null ? words["plan.sales-floor"] : plan.Rooms.FirstOrDefault(r => r.Id == id)?.Name ?? CompareNotes.Tag(plan, id);

    /// <summary>What we do and by when, and what we need from the store.</summary>
    public static IEnumerable<FlowItem> Next(
        Plan plan, NetSurvey net, LocateResult located, IReadOnlyList<MassBalance> balances, ServiceRecord? record, Words words, int most)
    {
        yield return NoteItems.Heading(words["report.next"]);
        var day = DateOnly.FromDateTime(net.Survey.Start.DateTime);
        IReadOnlyList<ServiceFinding> findings = record is null ? [] : ServiceFinding.Of(record, day);
        foreach (var (i, step) in NextSteps.Lines(plan, net, located, balances, findings, words, most).Index())
        {
            yield return new TextItem(step, SheetStyle.Small, Numbers.Whole(i + 1) + ".") { After = 0.4 };
        }

        if (located.Zones.Count + located.Elsewhere.Count + findings.Count(f => f.Repaired is null) > 0)
        {
            foreach (var line in RepairDates.Lines(plan, record, located, day, words)) yield return NoteItems.Line(words.Say("next.by-when", line), 0.6);
        }

        var cases = ZoneNotes.Told(located).Select(z => plan.FindFixture(z.Fixture)).OfType<Fixture>().Distinct().ToList();
        if (cases.Count == 0) yield break;
        var need = words.Say("report.need", Listing.Of([.. cases.Select(PlaceWords.Case)], Math.Max(MostNames, most), words));
        var shared = cases.SelectMany(f => Supply.SharedWith(plan, f)).Except(cases).Distinct().Select(f => f.Tag).ToList();
        yield return NoteItems.Line(shared.Count == 0 ? need : need + " " + words.Say("report.need-shared", Listing.Of(shared, Math.Max(MostNames, most), words)), 1);
    }

    /// <summary>What was not checked, and what kind of survey this is.</summary>
    public static IEnumerable<FlowItem> NotChecked(Plan plan, NetSurvey net, LocateResult located, Words words, int most)
    {
        yield return NoteItems.Heading(words["report.not-checked"]);
        var equipment = CoverageTable.UncheckedEquipment(plan, net).Select(e => e.Id).ToList();
        if (equipment.Count > 0) yield return NoteItems.Bullet(words.Say("report.equipment", Listing.Of(equipment, Math.Max(MostNames, 2 * most), words)));
        var pipes = CoverageTable.UncheckedPipes(plan, net).Select(p => p.Id).ToList();
        if (pipes.Count > 0) yield return NoteItems.Bullet(words.Say("report.pipes", Listing.Of(pipes, Math.Max(MostNames, 2 * most), words)));
        var fixtures = located.NotProbed.Select(id => plan.FindFixture(id)?.Tag ?? id).ToList();
        if (fixtures.Count > 0) yield return NoteItems.Bullet(words.Say("report.fixtures", Listing.Of(fixtures, 3 * most, words)));
        var noted = net.Survey.Coverage.SelectMany(c => c.NotChecked.Select(n => words.Say("report.noted-item", c.System, n))).ToList();
        if (noted.Count > 0) yield return NoteItems.Bullet(words.Say("report.noted", Listing.Of(noted, most, words)));
        var uncalibrated = net.Survey.Instruments.Any(i => i.Calibrated is null) ? " " + words["report.uncalibrated"] : "";
        yield return NoteItems.Line(words[CoverageTable.IsComplete(plan, net) ? "report.complete" : "report.leak-survey"] + uncalibrated, 1);
    }

    /// <summary>Refrigerant added beside what the leaks found can have lost, a row per system.</summary>
    public static IEnumerable<FlowItem> Balance(Plan plan, IReadOnlyList<MassBalance> balances, ServiceRecord? record, Words words, int most)
    {
        yield return NoteItems.Heading(words["balance.heading"]);
        if (balances.Count == 0)
        {
            yield return NoteItems.Line(words[record is null ? "balance.no-record" : "balance.nothing-added"], 1);
            yield break;
        }

        var table = new Table(
        [
            new(words["balance.of-system"], 22, Bold: true), new(words["balance.in-days"], 11, TextAnchor.End), new(words["balance.was-added"], 18, TextAnchor.End),
            new(words["balance.can-explain"], 34, TextAnchor.End), new(words["balance.rate-head"], 46, TextAnchor.End), new(words["balance.verdict"], 49),
        ]);
        var worst = balances.OrderBy(b => b.AddsUp).ThenByDescending(b => b.AddedKilograms).Take(most);
        foreach (var row in table.Items(worst.Select(b => (IReadOnlyList<string>)
        [
            $"{b.System} {b.Refrigerant}", Numbers.Whole(b.Days), Lengths.Weight(plan.Units, b.AddedKilograms),
            $"{Lengths.Weight(plan.Units, b.ExplainedLowKilograms)} – {Lengths.Weight(plan.Units, b.ExplainedHighKilograms)}",
            Rate(b, words), words[b.AddsUp ? "balance.yes" : b.SourcesNear.Count > 0 ? "balance.source-short" : "balance.no"],
        ]))) yield return row;
        yield return NoteItems.Gap(1.2);
        yield return NoteItems.Muted(words["balance.basis"]);
        if (balances.Count <= most) yield break;
        yield return NoteItems.Muted(words["report.more-systems"]);
    }

    private static string Rate(MassBalance balance, Words words) => balance switch
    {
        { AnnualisedPercent: { } percent, LatestAddition: { } day } => words.Say("balance.percent-at", Numbers.Fixed(percent, 1), Days.Of(day)),
        { AnnualisedPercent: { } percent } => words.Say("balance.percent", Numbers.Fixed(percent, 1)),
        _ => "–",
    };

    /// <summary>A place to sign.</summary>
    public static IEnumerable<FlowItem> Signature(Words words)
    {
        yield return NoteItems.Gap(5);
        yield return new DrawnItem(9, (svg, at, width) =>
        {
            foreach (var (i, key) in Signers.Index())
            {
                var x = at.X + (i * width / 2);
                svg.Line(new(x, at.Y + 4), new(x + (width / 2) - 8, at.Y + 4), Paint.Line(SheetStyle.Narrow));
                svg.Text(new(x, at.Y + 8), words[key], SheetStyle.Small);
            }
        });
    }

    /// <summary>What the report's words mean.</summary>
    public static IEnumerable<FlowItem> Definitions(Words words) =>
        Terms.Select(t => NoteItems.Bullet(words["define." + t])).Prepend(NoteItems.Heading(words["define.heading"]));
}
