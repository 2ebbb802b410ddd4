using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Tests.Routing;

namespace StoreMap.Tests.Sheets;

/// <summary>What a visit did not cover and what happened at it, as the report tells it.</summary>
public class VisitAccountTests
{
    private static readonly string[] Headings = ["What this visit did not cover", "What happened at the visit"];

    [Fact]
    public void Record_OfAVisitThatReadEverything_SaysNothingOfGapsOrEvents()
    {
        var text = new JournalVisit().Record();
        Assert.Contains("What was covered", text, StringComparison.Ordinal);
        Assert.All(Headings, h => Assert.DoesNotContain(h, text, StringComparison.Ordinal));
    }

    /// <summary>A survey file alone does not tell which walk was planned, nor what was skipped.</summary>
    [Fact]
    public void Record_WithoutAJournal_CountsNoPointsLeftOut()
    {
        var visit = new JournalVisit().Skip("not reachable", JournalVisit.Front("C3")[1]).Left(JournalVisit.Front("C5").Take(2));
        Assert.Contains(Headings[0], visit.Record(), StringComparison.Ordinal);
        Assert.All(Headings, h => Assert.DoesNotContain(h, visit.Record(withJournal: false), StringComparison.Ordinal));
    }

    /// <summary>A survey file read into the client has a journal, and says the same there as on the command line.</summary>
    [Fact]
    public void Record_OfASurveyFileReadIn_CountsNoPointsLeftOut()
    {
        var visit = new JournalVisit { Device = JournalEvent.FileDevice }.Left(JournalVisit.Front("C5").Take(2)).Note(JournalKinds.Panel, 90, new() { ["panel"] = "C3/1", ["leak"] = false });
        Assert.All(Headings, h => Assert.DoesNotContain(h, visit.Record(), StringComparison.Ordinal));
        Assert.Contains(Headings[0], visit.Read(JournalVisit.Front("C3")[1], "1").Record(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("en", "2A Dairy, 6'-0\" from the left end: not reachable")]
    [InlineData("de", "2A Dairy, 6'-0\" vom linken Ende: nicht zugänglich")]
    public void Record_OfOnePointSkipped_NamesPlaceAndReason(string language, string line) =>
        Assert.Contains(line, new JournalVisit().Skip("not reachable", JournalVisit.Front("C3")[1]).Record(language), StringComparison.Ordinal);

    [Theory]
    [InlineData("", "no reason noted")]
    [InlineData("wet\nfloor,   taped off", "wet floor, taped off")]
    public void Record_OfAReasonAsTyped_HasItInOneLine(string typed, string told) =>
        Assert.Contains("from the left end: " + told, new JournalVisit().Skip(typed, JournalVisit.Front("C3")[1]).Record(), StringComparison.Ordinal);

    [Fact]
    public void Record_OfAnEndlessReason_CutsIt()
    {
        var text = new JournalVisit().Skip(string.Concat(Enumerable.Repeat("pallets ", 500)), JournalVisit.Front("C3")[1]).Record();
        Assert.Equal(25, text.Split("pallets").Length - 1);
        Assert.Contains("pallets…", text, StringComparison.Ordinal);
    }

    /// <summary>The times are the store's; the end of the second was not noted.</summary>
    [Theory]
    [InlineData("en", "Bakery: baking from 04:05 to 04:45", "Sales floor: dry ice from 04:50, its end not noted")]
    [InlineData("de", "Bakery: Backbetrieb von 04:05 bis 04:45", "Verkaufsfläche: Trockeneis ab 04:50, das Ende ist nicht vermerkt")]
    public void Record_OfWhatWentOnInRooms_TellsItWithTimeAndRoom(string language, string baking, string ice)
    {
        var bakery = JournalVisit.Plan.Rooms.First(r => r.Name == "Bakery").Id;
        JournalVisit Ticked(JournalVisit visit, int minute, string? room, string what, bool on) => visit.Note(JournalKinds.Activity, minute, new() { ["room"] = room, ["what"] = what, ["on"] = on });
        var text = Ticked(Ticked(Ticked(new(), 5, bakery, "baking", true), 45, bakery, "baking", false), 50, null, "dry ice", true).Record(language);
        Assert.Contains(baking, text, StringComparison.Ordinal);
        Assert.Contains(ice, text, StringComparison.Ordinal);
    }

    [Fact]
    public void Record_OfAStopOverTheMonitorsRange_DoesNotNameAsANumberWhatIsOnlyTheLeast() => Assert.Contains(
        "≥500 ppm", new JournalVisit().Note(JournalKinds.StopWork, 30, new() { ["gas"] = "R-448A", ["ppm"] = 500.0, ["level"] = "leave", ["over"] = true }).Record(), StringComparison.Ordinal);

    [Fact]
    public void Record_InMetres_TellsTheSamePlaceInMetres() =>
        Assert.Contains("2A Dairy, 1.83 m from the left end: not reachable", new JournalVisit().Skip("not reachable", JournalVisit.Front("C3")[1]).Record(unit: LengthUnit.Metre), StringComparison.Ordinal);

    [Fact]
    public void Record_OfAPointSkippedAndReadLater_DoesNotNameIt()
    {
        var point = JournalVisit.Front("C3")[1];
        Assert.DoesNotContain(Headings[0], new JournalVisit().Skip("not reachable", point).Read(point, "1").Record(), StringComparison.Ordinal);
    }

    /// <summary>Neighbours of one reason are one line from where to where; another reason, or a point read between, begins a new one.</summary>
    [Fact]
    public void Record_OfNeighboursSkipped_TellsThemFromWhereToWhere()
    {
        var front = JournalVisit.Front("C3");
        var text = new JournalVisit().Skip("wet or iced", front.Take(3)).Skip("not safe", front[3]).Record();
        Assert.Contains("2A Dairy, 2'-0\" to 10'-0\" from the left end, 3 points: wet or iced", text, StringComparison.Ordinal);
        Assert.Contains("2A Dairy, 14'-0\" from the left end: not safe", text, StringComparison.Ordinal);
        var apart = new JournalVisit().Skip("wet or iced", front[0], front[2]).Record();
        Assert.Equal(2, apart.Split("from the left end: wet or iced").Length - 1);
        Assert.DoesNotContain(" points: wet or iced", apart, StringComparison.Ordinal);
    }

    /// <summary>Whole cases of one reason are one line, and are not told again as cases without readings.</summary>
    [Fact]
    public void Record_OfWholeCasesSkipped_TellsThemTogetherAndOnce()
    {
        var points = DemoRoute.Draft.Points.Where(p => p.Fixture is "C3" or "C5");
        var text = new JournalVisit().Skip("case emptied or off", points).Record();
        Assert.Contains("2A Dairy, 2C Juice and cheese, all planned points: case emptied or off", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Cases without readings", text, StringComparison.Ordinal);
        Assert.DoesNotContain("neither read nor skipped", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Record_OfSkippedEquipmentAndRooms_NamesThem()
    {
        var places = DemoRoute.Draft.Points.Where(p => p.Equipment == "Q1" || (p.Pass == ProbePass.Background && p.Room is not null)).ToList();
        var text = new JournalVisit().Skip("someone had the key", places).Record();
        Assert.Contains("Rack Q1", text, StringComparison.Ordinal);
        Assert.Contains("Bakery, room air", text, StringComparison.Ordinal);
        Assert.Contains(": someone had the key", text, StringComparison.Ordinal);
    }

    /// <summary>A closer point that was asked for is placed like any other, in whatever unit the report is.</summary>
    [Theory]
    [InlineData(LengthUnit.Foot, "2A Dairy, 4'-0\" from the left end: wet or iced")]
    [InlineData(LengthUnit.Metre, "2A Dairy, 1.22 m from the left end: wet or iced")]
    public void Record_OfACloserPointSkipped_TellsItsPlace(LengthUnit unit, string line)
    {
        var at = JournalVisit.Front("C3")[1].Along!.Value;
        var closer = ProbePlanner.CloseIn(JournalVisit.Plan, JournalVisit.Plan.FindFixture("C3")!, at, new Protocol()).Single(p => p.Fixture == "C3" && Math.Abs(JournalVisit.Plan.FindFixture("C3")!.FromLeft(p.Along!.Value) - (4 * LengthUnits.MetresPerFoot)) < 0.01 && p.Spot == Spot.Front);
        var visit = new JournalVisit().Note(JournalKinds.CloseIn, 3, new() { ["fixture"] = "C3", ["at"] = LengthUnit.Foot.FromMetres(at) }).Skip("wet or iced", closer);
        Assert.Contains(line, visit.Record(unit: unit), StringComparison.Ordinal);
    }

    [Fact]
    public void Record_OfPointsNeitherReadNorSkipped_CountsThemByCase()
    {
        var all = DemoRoute.Draft.Points.Count(p => p.Fixture == "C5");
        var text = new JournalVisit().Left(JournalVisit.Front("C5").Take(2)).Left(JournalVisit.Front("C3")[0]).Record();
        Assert.Contains($"neither read nor skipped: 2A Dairy 1 of {DemoRoute.Draft.Points.Count(p => p.Fixture == "C3")}, 2C Juice and cheese 2 of {all}.", text, StringComparison.Ordinal);
    }

    /// <summary>A case that nobody read is a case without readings, not one with so many points missing.</summary>
    [Theory]
    [InlineData("en", "Cases without readings: 2C Juice and cheese.")]
    [InlineData("de", "Möbel ohne Messwerte: 2C Juice and cheese.")]
    public void Record_OfACaseNotReadAtAll_NamesItOnce(string language, string line)
    {
        var text = new JournalVisit().Left(DemoRoute.Draft.Points.Where(p => p.Fixture == "C5")).Record(language);
        Assert.Contains(line, text, StringComparison.Ordinal);
        Assert.Single(text.Split(line[..^1].Split(": ")[1]).Skip(1));
    }

    /// <summary>A monitor's log has no points: what was walked past is read all the same.</summary>
    [Fact]
    public void Record_OfACaseWalkedWithALog_HasNoGapThere()
    {
        var discharge = DemoRoute.Draft.Points.First(p => p.Pass == ProbePass.Discharge);
        var fixture = JournalVisit.Plan.FindFixture(discharge.Fixture)!;
        var visit = new JournalVisit().Left(JournalVisit.Front(fixture.Id));
        for (var along = 0.0; along <= fixture.Front!.Length; along += 0.3) visit.Note(JournalKinds.Reading, 40, new() { ["fixture"] = fixture.Id, ["at"] = LengthUnit.Foot.FromMetres(along), ["ppm"] = "1" });
        Assert.DoesNotContain(Headings[0], visit.Record(), StringComparison.Ordinal);
        // Walking along the front is no reading at the discharge grille.
        Assert.Contains($"neither read nor skipped: {PlaceWords.Case(fixture)} 1 of", visit.Left(discharge).Record(), StringComparison.Ordinal);
    }

    /// <summary>Of many gaps those with most points stay, and the rest is counted; the page still holds all checks.</summary>
    [Theory]
    [InlineData("en", "Points skipped beside these: ")]
    [InlineData("de", "Weitere übergangene Punkte: ")]
    public void Record_OfManySkips_IsCutWithACount(string language, string rest)
    {
        var visit = new JournalVisit();
        foreach (var (i, point) in DemoRoute.Draft.Points.Where(p => p.Pass == ProbePass.Front).Index().Where(p => p.Index % 2 == 0)) visit.Skip($"reason number {i}, told at some length as people do when a pallet stands before the case", point);
        var whole = DemoRoute.Draft.Points.Where(p => p.Fixture == "C10").ToList();
        visit.Skip("not safe", whole);
        var skipped = visit.Study(language).Journals.First().First().Skipped.Count;
        var text = visit.Record(language);
        var told = text[text.IndexOf(Words.For(language)["report.uncovered"], StringComparison.Ordinal)..].Split(rest);
        Assert.Equal(2, told.Length);
        Assert.Equal(9, told[0].Split("told at some length").Length - 1);
        Assert.Equal(skipped - 9 - whole.Count, int.Parse(told[1].Split('.')[0], System.Globalization.CultureInfo.InvariantCulture));
    }

    [Theory]
    [InlineData("en", "2A Dairy: fans off since 04:20, not put back; handed over at 05:10 to R. Ansel", "The store: alarm muted since 04:25, neither put back nor handed over")]
    [InlineData("de", "2A Dairy: Lüfter aus seit 04:20, nicht zurückgestellt; um 05:10 übergeben an R. Ansel", "Ganzer Markt: Alarm stumm seit 04:25, weder zurückgestellt noch übergeben")]
    public void Record_OfWhatWasNotPutBack_SaysWhatWhereAndWhoHasIt(string language, string handed, string open)
    {
        var visit = new JournalVisit().Note(JournalKinds.LeftOff, 20, new() { ["what"] = "fans-off", ["fixture"] = "C3" });
        visit.Note(JournalKinds.HandedOver, 70, new() { ["item"] = visit.Last, ["to"] = "R. Ansel" }).Note(JournalKinds.LeftOff, 22, new() { ["what"] = "valve-shut", ["fixture"] = "C4" });
        visit.Note(JournalKinds.Restored, 60, new() { ["item"] = visit.Last }).Note(JournalKinds.LeftOff, 25, new() { ["what"] = "alarm-muted" });
        var text = visit.Record(language);
        Assert.Contains(handed, text, StringComparison.Ordinal);
        Assert.Contains(open, text, StringComparison.Ordinal);
        Assert.DoesNotContain(Words.For(language)["off.valve-shut"], text, StringComparison.Ordinal);
        // On page one the store is asked to see to it.
        Assert.Contains(language == "en" ? "please see that it is: 2A Dairy fans off (with R. Ansel), the store alarm muted." : "bitte dafür sorgen: 2A Dairy Lüfter aus (bei R. Ansel), ganzer Markt Alarm stumm.", visit.Summary(language), StringComparison.Ordinal);
    }

    [Fact]
    public void Record_OfAnItemHandedOverTheNextDay_TellsTheDay()
    {
        var visit = new JournalVisit().Note(JournalKinds.LeftOff, 20, new() { ["what"] = "panel-off", ["fixture"] = "C3" });
        Assert.Contains("handed over at 2026-08-05 04:30 to R. Ansel", visit.Note(JournalKinds.HandedOver, (24 * 60) + 30, new() { ["item"] = visit.Last, ["to"] = "R. Ansel" }).Record(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, true, "en", "The place was aired by 04:41, then work went on.")]
    [InlineData(true, false, "en", "The place was aired by 04:41; that monitor read nothing after it.")]
    [InlineData(false, true, "en", "Work went on; no airing is noted.")]
    [InlineData(false, false, "en", "No airing is noted; that monitor read nothing after it.")]
    [InlineData(true, true, "de", "Bis 04:41 war gelüftet, dann ging die Arbeit weiter.")]
    public void Record_OfAStop_TellsWhereWhenAtWhatAndWhetherWorkWentOn(bool aired, bool on, string language, string after)
    {
        var front = JournalVisit.Front("C3");
        var visit = new JournalVisit().Read(front[1], "1040").Note(JournalKinds.StopWork, 31, new() { ["gas"] = "R-448A", ["ppm"] = 1040, ["level"] = "leave" });
        if (aired) visit.Note(JournalKinds.StopAnswered, 41, []);
        if (on) visit.Note(JournalKinds.Reading, 45, new() { ["point"] = front[2].Id, ["ppm"] = "2" });
        // What another device reads is no word of this one's work.
        visit.Note(JournalKinds.Reading, 50, new() { ["point"] = front[3].Id, ["ppm"] = "2" }, "d9");
        var line = language == "en" ? "Work stopped at 04:31, 2A Dairy, 6'-0\" from the left end: 1040 ppm R-448A, the level at which to leave and air the room. "
            : "Arbeit angehalten um 04:31, 2A Dairy, 6'-0\" vom linken Ende: 1040 ppm R-448A, Stufe „hinausgehen und lüften“. ";
        Assert.Contains(line + after, visit.Record(language), StringComparison.Ordinal);
    }

    /// <summary>A reading of no point of the plan is placed by its fixture and distance, in whatever unit the report is.</summary>
    [Theory]
    [InlineData(LengthUnit.Foot, "2A Dairy, 18'-6\" from the left end: 1040 ppm")]
    [InlineData(LengthUnit.Metre, "2A Dairy, 5.64 m from the left end: 1040 ppm")]
    public void Record_OfAStopAtNoPoint_TellsFixtureAndDistance(LengthUnit unit, string line)
    {
        var fixture = JournalVisit.Plan.FindFixture("C3")!;
        var at = LengthUnit.Foot.FromMetres(fixture.FromLeft(18.5 * LengthUnits.MetresPerFoot));
        var visit = new JournalVisit().Note(JournalKinds.Reading, 30, new() { ["fixture"] = "C3", ["at"] = at, ["ppm"] = "1040" })
            .Note(JournalKinds.StopWork, 31, new() { ["gas"] = "R-448A", ["ppm"] = 1040, ["level"] = "leave" });
        Assert.Contains(line, visit.Record(unit: unit), StringComparison.Ordinal);
    }

    [Fact]
    public void Record_OfAStopWhereTheGasIsNotKnown_IsAllGerman()
    {
        var text = new JournalVisit().Note(JournalKinds.StopWork, 31, new() { ["gas"] = "R-448A or R-404A", ["ppm"] = 120000, ["level"] = "out" })
            .Note(JournalKinds.StopWork, 32, new() { ["gas"] = "unknown gas", ["ppm"] = 900, ["level"] = "leave" }).Record("de");
        Assert.Contains("ganzer Markt: 120000 ppm R-448A oder R-404A, Stufe „sofort hinaus", text, StringComparison.Ordinal);
        Assert.Contains("900 ppm unbekanntes Gas, ", text, StringComparison.Ordinal);
    }

    /// <summary>Nobody who surveyed is named, but the one who took something over.</summary>
    [Fact]
    public void Record_NamesNoTechnician()
    {
        var visit = new JournalVisit().Skip("not safe", JournalVisit.Front("C3")[1]).Read(JournalVisit.Front("C5")[0], "3", "icy");
        Assert.DoesNotContain("Thistlewood", visit.Record(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("en", "Cases without readings: 2B. Planned points left out at others: 3; the record has them.", "Planned points left out at cases that were probed: 3. The record has them.")]
    [InlineData("de", "Möbel ohne Messwerte: 2B. An anderen ausgebliebene Punkte: 3; sie stehen im Protokoll.", "Geplante Punkte, die an gemessenen Möbeln ausblieben: 3. Sie stehen im Protokoll.")]
    public void Summary_CountsThePointsLeftOutOnlyAtCasesThatWereProbed(string language, string beside, string alone)
    {
        var visit = new JournalVisit().Skip("not safe", JournalVisit.Front("C3")[1]).Left(JournalVisit.Front("C5").Take(2));
        Assert.Contains(alone, visit.Summary(language), StringComparison.Ordinal);
        Assert.Contains(beside, visit.Left(DemoRoute.Draft.Points.Where(p => p.Fixture == "C4")).Summary(language), StringComparison.Ordinal);
        Assert.DoesNotContain(alone[..20], new JournalVisit().Summary(language), StringComparison.Ordinal);
    }

    [Fact]
    public void Languages_HaveWordsForEveryUsualReasonAndKind() => Assert.All(Words.Languages, language =>
    {
        var words = Words.For(language);
        Assert.All(SkippedPoint.UsualReasons, r => Assert.Contains("skip." + r.Replace(' ', '-'), words.Keys));
        Assert.All(LeftOffItem.Kinds, k => Assert.Contains("off." + k, words.Keys));
    });
}
