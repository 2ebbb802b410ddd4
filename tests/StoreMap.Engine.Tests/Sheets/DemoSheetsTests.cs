using System.Text.Json.Nodes;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Tests.Routing;
using StoreMap.Tests.Rules;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

/// <summary>All checks over every sheet of the demo store, as its verbs draw them.</summary>
public class DemoSheetsTests
{
    private static readonly Lazy<IReadOnlyList<NetSurvey>> Visits = new(() =>
        [.. Directory.EnumerateFiles(SourceTree.PathOf("layouts", "tern-hollow"), "*.readings.csv").Order(StringComparer.Ordinal).Select(Net), Logged()]);

    private static readonly Lazy<ServiceRecord> Record = new(() =>
    {
        using var stream = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "tern-hollow.service.json"));
        return ServiceRecordFile.Read(stream, null, DemoRoute.Plan).Record;
    });

    private static readonly Lazy<VisitStudy> Study = new(() => StudyIn(new SheetContext { Company = "Brackenlow Cold Service", Technician = "M. Ostrander" }));

    [Theory]
    [InlineData("en", "tabloid")]
    [InlineData("de", "A3")]
    [InlineData("en", "A4")]
    [InlineData("de", "letter")]
    public void Report_OfTheDemo_HoldsAllChecks(string language, string paper)
    {
        var study = StudyIn(Study.Value.Context with { Language = language, PlanPaper = PaperSize.All.First(p => p.Name == paper) });
        var sheets = study.Report();
        Assert.True(sheets.Count >= 10);
        Assert.All(sheets, SheetChecks.AllHold);
        Assert.All(study.Summary(), SheetChecks.AllHold);
    }

    /// <summary>A report in metres and kilograms of a store drawn in feet: the rules and the paper stay those of the store.</summary>
    [Fact]
    public void Report_InTheOtherUnits_HoldsAllChecksAndKeepsRulesAndPaper()
    {
        var shown = DemoRoute.Plan.ShownIn(LengthUnit.Metre);
        var sheets = new VisitStudy(shown, DemoRoute.Draft.Points, Visits.Value, Record.Value, Study.Value.Context).Report();
        Assert.All(sheets, SheetChecks.AllHold);
        var usual = Study.Value.Report();
        Assert.Equal(usual[0].WidthMillimetres, sheets[0].WidthMillimetres);
        string Words(IEnumerable<Sheet> pages) => string.Join('\n', pages.SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text));
        Assert.Contains("from the left", Words(sheets), StringComparison.Ordinal);
        // Cautions have both.
        Assert.DoesNotMatch(@"\d lb\b|\d ft\b(?! \()|\d'", Words(sheets));
        Assert.Matches(@"\d lb\b", Words(usual));
        var day = DateOnly.FromDateTime(Study.Value.Visit.Survey.Start.DateTime);
        Assert.Equal(
            RepairDates.Lines(DemoRoute.Plan, Record.Value, Study.Value.Result, day, StoreMap.Sheets.Words.For("en")),
            RepairDates.Lines(shown, Record.Value, Study.Value.Result, day, StoreMap.Sheets.Words.For("en")));
    }

    /// <summary>A leak confirmed where it was said to be is that leak: no second one beside it.</summary>
    [Fact]
    public void Panel_WithTheLeakConfirmed_KeepsOneZoneWhereItWas()
    {
        var before = Study.Value.Result.Zones.First();
        var panel = before.Panels.MaxBy(p => p.Probability)!.Id;
        var day = DateOnly.FromDateTime(Study.Value.Visit.Survey.Start.DateTime);
        var study = new VisitStudy(DemoRoute.Plan, DemoRoute.Draft.Points, Visits.Value, Record.Value, Study.Value.Context)
        {
            Checked = new[] { (day, new PanelCheck(panel, true)) }.ToLookup(c => c.day, c => c.Item2),
        };
        var after = Assert.Single(study.Result.Zones, z => z.Fixture == before.Fixture && z.Probability > 0.2);
        Assert.Equal(before.Center!.Value, after.Center!.Value, 0.2);
        Assert.Equal(Study.Value.Result.Zones.Count(z => z.Probability > 0.5), study.Result.Zones.Count(z => z.Probability > 0.5));
    }

    /// <summary>The finding that a confirmed panel opens, counted as history of the place too, told that the source was perhaps not in the case.</summary>
    [Fact]
    public void Panel_WithTheLeakConfirmed_IsNoHistoryOfItsOwnVisit()
    {
        var zone = Study.Value.Result.Zones.First();
        var panel = zone.Panels.MaxBy(p => p.Probability)!;
        var day = DateOnly.FromDateTime(Study.Value.Visit.Survey.Start.DateTime);
        LocateResult Of(params ServiceEntry[] more) => new VisitStudy(
            DemoRoute.Plan, DemoRoute.Draft.Points, Visits.Value, new ServiceRecord(Record.Value.Store, [.. Record.Value.Entries, .. more], Record.Value.Movements), Study.Value.Context)
        {
            Known = [.. Study.Value.Located.SkipLast(1)], Checked = new[] { new PanelCheck(panel.Id, true) }.ToLookup(_ => day),
        }.Result;
        var own = new ServiceEntry { Finding = FormattableString.Invariant($"{panel.Id} {day:yyyy-MM-dd}"), Date = day, Fixture = zone.Fixture, Along = (panel.From + panel.To) / 2, Status = FindingStatus.Open };
        Assert.Equal(LocateText.Write(Of()), LocateText.Write(Of(own)));
        Assert.NotEqual(LocateText.Write(Of()), LocateText.Write(Of(own with { Finding = "F99", Date = day.AddDays(-40) })));
    }

    /// <summary>What was located may be kept as text: read back, it gives the same sheets, letter for letter.</summary>
    [Fact]
    public void Report_OfVisitsReadBackFromText_IsTheSame()
    {
        const ReportParts OfZones = ReportParts.All & ~ReportParts.HeatMap;
        var read = Study.Value.Located.Select(v => v with { Result = LocateText.Read(LocateText.Write(v.Result)) }).ToList();
        Assert.Equal(3, read.Count);
        Assert.Contains(read, v => v.Result is { Zones.Count: > 1, NoLeakSeen.Count: > 0, Next: not null });
        var again = new VisitStudy(DemoRoute.Plan, DemoRoute.Draft.Points, Visits.Value, Record.Value, Study.Value.Context) { Known = read };
        Assert.Equal(Study.Value.Report(OfZones).Select(s => s.Svg), again.Report(OfZones).Select(s => s.Svg));
    }

    /// <summary>Two lines more for the manager had pushed the leak at 13A off the page.</summary>
    [Theory]
    [InlineData("en", "letter")]
    [InlineData("de", "A4")]
    public void Summary_OfTheDemo_NamesEachLeakAndTheMainOneOnOnePage(string language, string paper)
    {
        var study = StudyIn(Study.Value.Context with { Language = language, TextPaper = PaperSize.All.First(p => p.Name == paper) });
        var text = string.Join(' ', SheetChecks.TextsOf(SheetChecks.Parse(Assert.Single(study.Summary()))).Select(t => t.Text));
        var words = StoreMap.Sheets.Words.For(language);
        Assert.Contains("1B Fresh meat: ", text, StringComparison.Ordinal);
        Assert.Contains("13A Produce: ", text, StringComparison.Ordinal);
        Assert.Contains("4B Frozen vegetables: ", text, StringComparison.Ordinal);
        Assert.Contains(words["report.main-leak"].Replace("{0}", "A", StringComparison.Ordinal).Split('{')[0].Trim(), text, StringComparison.Ordinal);
        // In German the course has no room beside all that must stand there.
        if (language == "en") Assert.Contains($"{words["change.recurring"]} 1B, 13A; {words["change.new"]} 4B; {words["change.no-longer-seen"]} 6A", text, StringComparison.Ordinal);
        Assert.Contains(words["report.sign-store"], text, StringComparison.Ordinal);
    }

    /// <summary>What a visit left off makes way for the leaks: the record has it in full.</summary>
    [Theory]
    [InlineData("en", "letter")]
    [InlineData("de", "A4")]
    public void Report_OfAVisitWithMuchLeftOff_KeepsEachLeakOnPageOneAndTheRestInTheRecord(string language, string paper)
    {
        var start = Study.Value.Visit.Survey.Start;
        var events = DemoRoute.Draft.Points.Where(p => p.Fixture is not null).Index().Where(p => p.Index % 3 == 0).Select(p => Noted($"s{p.Index}", JournalKinds.Skip, new() { ["point"] = p.Item.Id, ["reason"] = $"pallet number {p.Index} in the way" }))
            .Concat(DemoRoute.Plan.Fixtures.SelectMany(f => new[]
            {
                Noted("o" + f.Id, JournalKinds.LeftOff, new() { ["what"] = "fans-off", ["fixture"] = f.Id }), Noted("h" + f.Id, JournalKinds.HandedOver, new() { ["item"] = "o" + f.Id, ["to"] = "R. Ansel, night manager" }),
            }));
        var state = JournalReplay.Replay(DemoRoute.Plan.Id, DemoRoute.Plan.Units, start, events);
        var study = new VisitStudy(DemoRoute.Plan, DemoRoute.Draft.Points, Visits.Value, Record.Value, Study.Value.Context with { Language = language, TextPaper = PaperSize.Find(paper) })
        {
            Known = Study.Value.Located, Journals = new[] { state }.ToLookup(_ => DateOnly.FromDateTime(start.DateTime)),
        };
        var summary = Assert.Single(study.Summary());
        SheetChecks.AllHold(summary);
        var text = string.Join(' ', SheetChecks.TextsOf(SheetChecks.Parse(summary)).Select(t => t.Text));
        Assert.All(new[] { "1B Fresh meat: ", "13A Produce: ", "4B Frozen vegetables: " }, leak => Assert.Contains(leak, text, StringComparison.Ordinal));
        var record = study.Report(ReportParts.Record);
        Assert.All(record, SheetChecks.AllHold);
        Assert.InRange(record.Count, 1, StudyIn(study.Context).Report(ReportParts.Record).Count + 1);
        var words = StoreMap.Sheets.Words.For(language);
        var all = string.Join(' ', record.SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text));
        // The monitor's log of that day passed all that was said to be skipped.
        Assert.DoesNotContain(words["report.uncovered"], all, StringComparison.Ordinal);
        Assert.Contains(words.Say("gaps.more", DemoRoute.Plan.Fixtures.Count - 6), all, StringComparison.Ordinal);

        JournalEvent Noted(string id, string kind, JsonObject body) => new() { Id = id, Survey = "s1", Device = "d1", Number = 1, Time = start.AddMinutes(9), Kind = kind, Body = body };
    }

    /// <summary>A leak confirmed at 1B and an empty panel at 13A were both still listed as panels to lift.</summary>
    [Theory]
    [InlineData("en", "letter", "confirmed behind: 1B panel 1 (flare nut; TH-0101).", "until its leak is found: 13A panels 4, 6, 3 (5 found empty).", "Leak confirmed behind panel 1: flare nut.", "Panel 5 was found empty.")]
    [InlineData("de", "A4", "Leck instand setzen: 1B Blech 1 (flare nut; TH-0101).", "je Möbel bis zum Leck: 13A Bleche 4, 6, 3 (5 war leer).", "Leck hinter Blech 1 bestätigt: flare nut.", "Hinter Blech 5 war nichts.")]
    public void Report_OfPanelsLifted_SaysWhatWasFoundBehindThem(string language, string paper, string repair, string lift, string found, string empty)
    {
        var day = DateOnly.FromDateTime(Study.Value.Visit.Survey.Start.DateTime);
        var study = new VisitStudy(DemoRoute.Plan, DemoRoute.Draft.Points, Visits.Value, Record.Value, Study.Value.Context with { Language = language, TextPaper = PaperSize.Find(paper) })
        {
            Known = Study.Value.Located, KnownField = Study.Value.Field,
            Checked = new[] { new PanelCheck("C28/5", false), new PanelCheck("C2/1", true, "flare nut") }.ToLookup(_ => day),
        };
        var sheets = study.Report();
        Assert.All(sheets, SheetChecks.AllHold);
        Assert.Equal(StudyIn(study.Context).Report().Count, sheets.Count);
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
        Assert.Contains(found, TextOf("leak-zone-a"), StringComparison.Ordinal);
        Assert.Contains(empty, TextOf("leak-zone-b"), StringComparison.Ordinal);
    }

    /// <summary>A leak repaired on the day it was found is not among what is to be repaired.</summary>
    [Fact]
    public void Summary_OfALeakRepairedWhenItWasFound_DoesNotAskForTheRepair()
    {
        var day = DateOnly.FromDateTime(Study.Value.Visit.Survey.Start.DateTime);
        var panel = DemoRoute.Plan.FindFixture("C2")!.Panels[0];
        string TextOn(params ServiceEntry[] more) => string.Join(' ', new VisitStudy(DemoRoute.Plan, DemoRoute.Draft.Points, Visits.Value, new ServiceRecord("s", [.. more], []), Study.Value.Context)
        {
            Known = Study.Value.Located, Checked = new[] { new PanelCheck(panel.Id, true) }.ToLookup(_ => day),
        }.Summary().SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text));
        var repaired = new ServiceEntry { Finding = "F1", Date = day, Fixture = "C2", Along = (panel.From + panel.To) / 2, Status = FindingStatus.Repaired };
        Assert.Contains("then repair the leak", TextOn(repaired with { Status = FindingStatus.Open }), StringComparison.Ordinal);
        Assert.Contains("then repair the leak", TextOn(repaired with { Date = day.AddDays(-30) }), StringComparison.Ordinal);
        Assert.DoesNotContain("then repair the leak", TextOn(repaired), StringComparison.Ordinal);
    }

    /// <summary>6A after its repair: its 0.4 ppm of July, below the 1.4 ppm that could have been seen, stood as "&lt;0.4" on the chart and the
    /// comparison sheet beside "under 1.4" in the client's table.</summary>
    [Fact]
    public void Peaks_BelowTheDetectionLevel_AreThatLevelOnChartSheetAndTable()
    {
        var zone = Assert.Single(Study.Value.Comparison.Zones, z => z.Fixture == "C16");
        Assert.Equal("<" + Numbers.Ppm(zone.Visits[1].DetectionPpm!.Value), PeakText.Of(zone.Visits[1]));
        Assert.Equal(["9.5", "<1.4", "<1.4"], zone.Visits.Select(PeakText.Of));
        var chart = SheetChecks.TextsOf(SheetChecks.Parse(ScreenTrend.Draw(zone, null, "6A", "Peaks", 90))).Select(t => t.Text).ToList();
        Assert.Equal(2, chart.Count(t => t == "<1.4"));
        var sheet = string.Join(' ', Study.Value.ComparisonSheets().SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text));
        Assert.Contains("9.5 → <1.4 → <1.4", sheet, StringComparison.Ordinal);
        Assert.All(Study.Value.Comparison.Zones.SelectMany(z => z.Visits).Where(v => v.Below), v => Assert.Equal(v.DetectionPpm, v.PeakPpm));
    }

    /// <summary>13A's panels count from the right, its distances from the left: its card named "panel 4 (20'-0" to 24'-0")" without a word of it.</summary>
    [Theory]
    [InlineData("en", "numbered from the right end")]
    [InlineData("de", "vom rechten Ende gezählt")]
    public void Cards_WherePanelsCountFromTheRight_SaySo(string language, string said)
    {
        Assert.False(DemoRoute.Plan.FindFixture("C2")!.PanelsFromRight);
        Assert.True(DemoRoute.Plan.FindFixture("C28")!.PanelsFromRight);
        var cards = ReportPages.Cards(DemoRoute.Plan, Study.Value.Visit, Study.Value.Result, Record.Value, Study.Value.Context with { Language = language });
        var texts = string.Join(' ', cards.SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(x => x.Text)).Split(StoreMap.Sheets.Words.For(language)["card.title"].Split('{')[0]);
        Assert.Contains(said, Assert.Single(texts, x => x.Contains("13A Produce", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.DoesNotContain(said, Assert.Single(texts, x => x.StartsWith("A: 1B", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    /// <summary>With A4 chosen for a store in feet the plans were A4 and the pages of text stayed letter.</summary>
    [Theory]
    [InlineData("A4", 210)]
    [InlineData("A3", 210)]
    [InlineData("tabloid", 215.9)]
    [InlineData("letter", 215.9)]
    [InlineData(null, 215.9)]
    public void TextPages_BesidePlansOfASize_AreOfItsKind(string? paper, double width)
    {
        var context = Study.Value.Context with { PlanPaper = PaperSize.Find(paper) };
        Assert.Equal(width, StudyIn(context).Summary()[0].WidthMillimetres);
        Assert.Equal(width, ReportPages.Cards(DemoRoute.Plan, Study.Value.Visit, Study.Value.Result, Record.Value, context)[0].WidthMillimetres);
        // A size named for text goes before.
        Assert.Equal(279.4, StudyIn(context with { TextPaper = PaperSize.Tabloid }).Summary()[0].WidthMillimetres);
    }

    [Fact]
    public void Walk_OfTheDemo_HoldsAllChecks() =>
        Assert.All(WalkSheet.Draw(DemoRoute.Plan, DemoRoute.Usual, Study.Value.Context), SheetChecks.AllHold);

    /// <summary>Every case at which a hit was read stands on the map by its tag, and every hit as a number there or in the notes behind it.</summary>
    [Fact]
    public void HeatMap_OfTheDemo_NamesEveryCaseWithAHitAndWritesEveryHit()
    {
        var map = Study.Value.HeatMap();
        var tags = SheetChecks.TextsIn(SheetChecks.Parse(map[0]), "labels-fixtures").Select(t => t.Text).ToHashSet();
        var texts = map.SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text).ToList();
        foreach (var hit in Study.Value.Visit.Readings.Where(r => r.IsHit))
        {
            if (DemoRoute.Plan.FindFixture(hit.Reading.Place.Fixture) is { } fixture) Assert.Contains(fixture.Tag, tags);
            var number = hit.Bound == ReadingBound.AtLeast ? "≥1000" : Numbers.Ppm(hit.NetPpm);
            Assert.Contains(texts, t => t.Split(" & ").Any(part => part == number || part.Contains($" {number} ppm", StringComparison.Ordinal)));
        }
    }

    /// <summary>The band of a detail says that 9 of 10 readings fall into it. The demo's readings come from another physics than the curves.</summary>
    [Fact]
    public void Bands_OfTheDemosDetails_HoldNineOfTenReadings()
    {
        int inside = 0, all = 0;
        foreach (var zone in Study.Value.Result.Zones)
        {
            foreach (var profile in zone.Profiles)
            {
                foreach (var r in Study.Value.Visit.Readings.Where(r => r.Reading.Place.Fixture == zone.Fixture && r.Reading.Air == profile.Air && (r.Reading.Spot == Spot.KickPlate) == profile.Base && ReadingsPass.Shown(r) && r.Bound == ReadingBound.Exact))
                {
                    var near = profile.Points.MinBy(p => Math.Abs(p.Along - r.Reading.Place.Along!.Value))!;
                    all++;
                    if (r.NetPpm >= near.LowPpm && r.NetPpm <= near.HighPpm) inside++;
                }
            }
        }

        Assert.True(all >= 20, $"{all}");
        Assert.InRange(inside / (double)all, 0.8, 1);
    }

    // The slow parts are done once; a study in other words or on other paper takes them over.
    private static VisitStudy StudyIn(SheetContext context) => new(DemoRoute.Plan, DemoRoute.Draft.Points, Visits.Value, Record.Value, context)
    {
        Known = Study.IsValueCreated ? Study.Value.Located : [], KnownField = Study.IsValueCreated ? Study.Value.Field : null,
    };

    private static NetSurvey Net(string file)
    {
        using var stream = File.OpenRead(file);
        return NetSurveyBuilder.Build(DemoRoute.Plan, SurveyReader.Read(stream, file, DemoRoute.Plan, DemoRoute.Draft.Points).Survey);
    }

    // The last visit is a monitor's own log with the marks of the walk.
    private static NetSurvey Logged()
    {
        var options = new SurveyReadOptions { Kind = InstrumentKind.LoggingPpm, DelaySeconds = 5, T90Seconds = 5 };
        using var log = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "2026-08-04.log.csv"));
        using var marks = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "2026-08-04.marks.csv"));
        var aligned = LogAligner.Align(
            DemoRoute.Plan, DemoRoute.Draft.Points, LogCsv.Read(log, null, DemoRoute.Plan, options),
            MarksCsv.Read(marks, null, DemoRoute.Plan, DemoRoute.Draft.Points, options).Marks, new LogAlignOptions { DelayKnown = true });
        return NetSurveyBuilder.Build(DemoRoute.Plan, aligned.Survey);
    }
}
