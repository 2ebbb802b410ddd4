using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Tests.Routing;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

/// <summary>What the demo store's sheets make of panels that were lifted.</summary>
public class DemoPanelsTests
{
    /// <summary>A leak confirmed where it was said to be is that leak: no second one beside it.</summary>
    [Fact]
    public void Panel_WithTheLeakConfirmed_KeepsOneZoneWhereItWas()
    {
        var before = DemoStudy.Study.Value.Result.Zones.First();
        var panel = before.Panels.MaxBy(p => p.Probability)!.Id;
        var day = DateOnly.FromDateTime(DemoStudy.Study.Value.Visit.Survey.Start.DateTime);
        var study = new VisitStudy(DemoRoute.Plan, DemoRoute.Draft.Points, DemoStudy.Visits.Value, DemoStudy.Record.Value, DemoStudy.Study.Value.Context)
        {
            Checked = new[] { (day, new PanelCheck(panel, true)) }.ToLookup(c => c.day, c => c.Item2),
        };
        var after = Assert.Single(study.Result.Zones, z => z.Fixture == before.Fixture && z.Probability > 0.2);
        Assert.Equal(before.Center!.Value, after.Center!.Value, 0.2);
        Assert.Equal(DemoStudy.Study.Value.Result.Zones.Count(z => z.Probability > 0.5), study.Result.Zones.Count(z => z.Probability > 0.5));
    }

    /// <summary>The finding that a confirmed panel opens, counted as history of the place too, told that the source was perhaps not in the case.</summary>
    [Fact]
    public void Panel_WithTheLeakConfirmed_IsNoHistoryOfItsOwnVisit()
    {
        var zone = DemoStudy.Study.Value.Result.Zones.First();
        var panel = zone.Panels.MaxBy(p => p.Probability)!;
        var day = DateOnly.FromDateTime(DemoStudy.Study.Value.Visit.Survey.Start.DateTime);
        LocateResult Of(params ServiceEntry[] more) => new VisitStudy(
            DemoRoute.Plan, DemoRoute.Draft.Points, DemoStudy.Visits.Value, new ServiceRecord(DemoStudy.Record.Value.Store, [.. DemoStudy.Record.Value.Entries, .. more], DemoStudy.Record.Value.Movements), DemoStudy.Study.Value.Context)
        {
            Known = [.. DemoStudy.Study.Value.Located.SkipLast(1)], Checked = new[] { new PanelCheck(panel.Id, true) }.ToLookup(_ => day),
        }.Result;
        var own = new ServiceEntry { Finding = FormattableString.Invariant($"{panel.Id} {day:yyyy-MM-dd}"), Date = day, Fixture = zone.Fixture, Along = (panel.From + panel.To) / 2, Status = FindingStatus.Open };
        Assert.Equal(LocateText.Write(Of()), LocateText.Write(Of(own)));
        Assert.NotEqual(LocateText.Write(Of()), LocateText.Write(Of(own with { Finding = "F99", Date = day.AddDays(-40) })));
    }

    /// <summary>A leak confirmed at 1B and an empty panel at 13A were both still listed as panels to lift.</summary>
    [Theory]
    [InlineData("en", "letter", "confirmed behind: 1B panel 1 (flare nut; TH-0101).", "until its leak is found: 13A panels 4, 6, 3 (5 found empty).", "Leak confirmed behind panel 1: flare nut.", "Panel 5 was found empty.")]
    [InlineData("de", "A4", "Leck instand setzen: 1B Blech 1 (flare nut; TH-0101).", "je Möbel bis zum Leck: 13A Bleche 4, 6, 3 (5 war leer).", "Leck hinter Blech 1 bestätigt: flare nut.", "Hinter Blech 5 war nichts.")]
    public void Report_OfPanelsLifted_SaysWhatWasFoundBehindThem(string language, string paper, string repair, string lift, string found, string empty)
    {
        var day = DateOnly.FromDateTime(DemoStudy.Study.Value.Visit.Survey.Start.DateTime);
        var study = new VisitStudy(DemoRoute.Plan, DemoRoute.Draft.Points, DemoStudy.Visits.Value, DemoStudy.Record.Value, DemoStudy.Study.Value.Context with { Language = language, TextPaper = PaperSize.Find(paper) })
        {
            Known = DemoStudy.Study.Value.Located, KnownField = DemoStudy.Study.Value.Field,
            Checked = new[] { new PanelCheck("C28/5", false), new PanelCheck("C2/1", true, "flare nut") }.ToLookup(_ => day),
        };
        var sheets = study.Report();
        Assert.All(sheets, SheetChecks.AllHold);
        Assert.Equal(DemoStudy.StudyIn(study.Context).Report().Count, sheets.Count);
        string TextOf(string name) => string.Join(' ', SheetChecks.TextsOf(SheetChecks.Parse(Assert.Single(sheets, s => s.Name == name))).Select(t => t.Text));
        Assert.Contains(repair, TextOf("summary"), StringComparison.Ordinal);
        Assert.Contains(lift, TextOf("summary"), StringComparison.Ordinal);
        // No leak makes way for it.
        Assert.Contains("13A Produce: ", TextOf("summary"), StringComparison.Ordinal);
        Assert.All(new[] { "heat-map", "repair-cards", "record" }, page =>
        {
            Assert.Contains(found, TextOf(page), StringComparison.Ordinal);
            Assert.Contains(empty, TextOf(page), StringComparison.Ordinal);
        });
        // What leaks stands on its line of the card, and in no other blank of it.
        Assert.Single(SheetChecks.TextsOf(SheetChecks.Parse(sheets.Single(s => s.Name == "repair-cards"))), t => t.Text == "flare nut");
        Assert.Contains(found, TextOf("leak-zone-a"), StringComparison.Ordinal);
        Assert.Contains(empty, TextOf("leak-zone-b"), StringComparison.Ordinal);
    }

    /// <summary>A leak repaired on the day it was found is not among what is to be repaired.</summary>
    [Fact]
    public void Summary_OfALeakRepairedWhenItWasFound_DoesNotAskForTheRepair()
    {
        var day = DateOnly.FromDateTime(DemoStudy.Study.Value.Visit.Survey.Start.DateTime);
        var panel = DemoRoute.Plan.FindFixture("C2")!.Panels[0];
        string TextOn(params ServiceEntry[] more) => string.Join(' ', new VisitStudy(DemoRoute.Plan, DemoRoute.Draft.Points, DemoStudy.Visits.Value, new ServiceRecord("s", [.. more], []), DemoStudy.Study.Value.Context)
        {
            Known = DemoStudy.Study.Value.Located, Checked = new[] { new PanelCheck(panel.Id, true) }.ToLookup(_ => day),
        }.Summary().SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text));
        var repaired = new ServiceEntry { Finding = "F1", Date = day, Fixture = "C2", Along = (panel.From + panel.To) / 2, Status = FindingStatus.Repaired };
        Assert.Contains("then repair the leak", TextOn(repaired with { Status = FindingStatus.Open }), StringComparison.Ordinal);
        Assert.Contains("then repair the leak", TextOn(repaired with { Date = day.AddDays(-30) }), StringComparison.Ordinal);
        Assert.DoesNotContain("then repair the leak", TextOn(repaired), StringComparison.Ordinal);
    }

    /// <summary>13A's panels count from the right, its distances from the left: its card named "panel 4 (20'-0" to 24'-0")" without a word of it.</summary>
    [Theory]
    [InlineData("en", "numbered from the right end")]
    [InlineData("de", "vom rechten Ende gezählt")]
    public void Cards_WherePanelsCountFromTheRight_SaySo(string language, string said)
    {
        Assert.False(DemoRoute.Plan.FindFixture("C2")!.PanelsFromRight);
        Assert.True(DemoRoute.Plan.FindFixture("C28")!.PanelsFromRight);
        var cards = ReportPages.Cards(DemoRoute.Plan, DemoStudy.Study.Value.Visit, DemoStudy.Study.Value.Result, DemoStudy.Record.Value, DemoStudy.Study.Value.Context with { Language = language });
        var texts = string.Join(' ', cards.SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(x => x.Text)).Split(StoreMap.Sheets.Words.For(language)["card.title"].Split('{')[0]);
        Assert.Contains(said, Assert.Single(texts, x => x.Contains("13A Produce", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.DoesNotContain(said, Assert.Single(texts, x => x.StartsWith("A: 1B", StringComparison.Ordinal)), StringComparison.Ordinal);
    }
}
