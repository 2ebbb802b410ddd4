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

    private static readonly string[] Terms = ["above-room", "letters", "zone", "chance", "no-leak-seen", "strength", "no-longer-seen", "survey"];

    private static readonly string[] Signers = ["report.sign-technician", "report.sign-store"];

    /// <summary>What we do and by when, and what we need from the store.</summary>
    public static IEnumerable<FlowItem> Next(
        Plan plan, NetSurvey net, LocateResult located, IReadOnlyList<MassBalance> balances, ServiceRecord? record, IEnumerable<string> putBack, Words words, int most)
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

        foreach (var need in putBack.Concat(Needs(plan, located, words, most))) yield return NoteItems.Line(need, 0.8);
    }

    /// <summary>What we need from the store: cases to unload, cooling that stops, room to work.</summary>
    private static IEnumerable<string> Needs(Plan plan, LocateResult located, Words words, int most)
    {
        var cases = ZoneNotes.Told(located).Select(z => plan.FindFixture(z.Fixture)).OfType<Fixture>().Distinct().ToList();
        if (cases.Count > 0)
        {
            var need = words.Say("report.need", Listing.Of([.. cases.Select(PlaceWords.Case)], Math.Max(MostNames, most), words));
            var shared = cases.SelectMany(f => Supply.SharedWith(plan, f)).Except(cases).Distinct().Select(f => f.Tag).ToList();
            yield return shared.Count == 0 ? need : need + " " + words.Say("report.need-shared", Listing.Of(shared, Math.Max(MostNames, most), words));
        }

        foreach (var near in located.Elsewhere.Where(e => e.Probability >= ZoneNotes.WorthTelling).Select(e => plan.FindFixture(e.Near)).OfType<Fixture>().Distinct().Take(most))
        {
            var stopped = Supply.SharedWith(plan, near).Select(f => f.Tag).Prepend(near.Tag).ToList();
            yield return words.Say("report.need-source", PlaceWords.Case(near), Listing.Of(stopped, Math.Max(MostNames, most), words));
        }
    }

    /// <summary>Systems whose main leak is not found: that stands among the leaks, or it is missed.</summary>
    public static IEnumerable<FlowItem> NotFound(Plan plan, IReadOnlyList<MassBalance> balances, Words words, int most)
    {
        foreach (var b in balances.Where(b => !b.AddsUp && b.SourcesNear.Count == 0).OrderByDescending(b => b.AddedKilograms).Take(most))
        {
            var text = words.Say("report.main-leak", b.System, Lengths.Weight(plan.Units, b.ExplainedHighKilograms), Lengths.Weight(plan.Units, b.AddedKilograms), Numbers.Whole(b.Days));
            yield return new TextItem(text, SheetStyle.SmallBold) { After = 0.8 };
        }
    }

    /// <summary>Better or worse than before, case by case.</summary>
    public static IEnumerable<FlowItem> Course(Plan plan, Comparison? comparison, Words words, int most)
    {
        if (comparison is null || comparison.Dates.Count < 2) yield break;
        var all = comparison.Zones.Select(z => (z.Change, z.Fixture)).Concat(comparison.Sources.Select(s => (s.Change, Fixture: s.Near))).ToList();
        var parts = new[] { ZoneChange.Recurring, ZoneChange.New, ZoneChange.NoLongerSeen }
            .Select(change => (change, Names: all.Where(a => a.Change == change).Select(a => plan.FindFixture(a.Fixture)?.Tag ?? a.Fixture).Distinct().ToList()))
            .Where(p => p.Names.Count > 0).Select(p => $"{words["change." + p.change.Kebab()]} {Listing.Of(p.Names, Math.Max(MostNames, most), words)}").ToList();
        if (parts.Count > 0) yield return NoteItems.Line(words.Say("report.course", Days.Of(comparison.Dates[0]), string.Join("; ", parts)), 0.8);
    }

    /// <summary>What was not checked, and what kind of survey this is.</summary>
    public static IEnumerable<FlowItem> NotChecked(Plan plan, NetSurvey net, LocateResult located, int pointsLeft, Words words, int most)
    {
        yield return NoteItems.Heading(words["report.not-checked"]);
        var equipment = CoverageTable.UncheckedEquipment(plan, net).Select(e => e.Id).ToList();
        if (equipment.Count > 0) yield return NoteItems.Bullet(words.Say("report.equipment", Listing.Of(equipment, Math.Max(MostNames, 2 * most), words)));
        var pipes = CoverageTable.UncheckedPipes(plan, net).Select(p => p.Id).ToList();
        if (pipes.Count > 0) yield return NoteItems.Bullet(words.Say("report.pipes", Listing.Of(pipes, Math.Max(MostNames, 2 * most), words)));
        var fixtures = located.NotProbed.Select(id => plan.FindFixture(id)?.Tag ?? id).ToList();
        if (fixtures.Count > 0)
        {
            var cases = Listing.Of(fixtures, 3 * most, words);
            yield return NoteItems.Bullet(pointsLeft == 0 ? words.Say("report.fixtures", cases) : words.Say("report.fixtures-and-points", cases, pointsLeft));
        }
        else if (pointsLeft > 0)
        {
            yield return NoteItems.Bullet(words.Say("report.points-left", pointsLeft));
        }

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
            new(words["balance.of-system"], 22, Bold: true), new(words["balance.in-days"], 11, TextAnchor.End), new(words["balance.was-added"], 21, TextAnchor.End),
            new(words["balance.can-explain"], 37, TextAnchor.End), new(words["balance.rate-head"], 46, TextAnchor.End), new(words["balance.verdict"], 43),
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
        yield return NoteItems.Gap(3);
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
