using System.Text.Json.Nodes;
using CsCheck;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.History;

/// <summary>The service journal of docs/formats.md: additions made apart come together the same in any order.</summary>
public class ServiceJournalTests
{
    private static readonly Plan Shop = TestShop.Shop with { Fixtures = [TestShop.Shop.Fixtures[0] with { Panels = [new("C1/1", PanelKind.DeckPan, 0, 1.2, 2), new("C1/2", PanelKind.DeckPan, 1.2, 2.4, 2)] }, .. TestShop.Shop.Fixtures.Skip(1)] };

    private static readonly FoundPanel Found = Panel(2, 4);

    [Fact]
    public void Replay_ConfirmedPanel_OpensAFindingOfItsOwn()
    {
        var story = Assert.Single(Replay([], Found).Stories);
        Assert.Equal(("C1/2 2026-06-04", "C1", FindingStatus.Open, "flare"), (story.Finding.Entry.Finding, story.Finding.Entry.Fixture, story.Finding.Entry.Status, story.Finding.Entry.Component));
        Assert.Equal(1.8, story.Finding.Entry.Along!.Value, 9);
        Assert.Equal("Ada Brook", story.Finding.Entry.Technician);
        Assert.Same(Found, story.Lines.Single().Panel);
    }

    [Fact]
    public void Replay_WholeLife_GoesFromFoundToReopened()
    {
        var repair = Note("e1", "a", 5, FindingStatus.Repaired, added: 10);
        var test = Note("e2", "a", 5, FindingStatus.Verified, new VerificationTest(TestShop.Day(6, 5), "initial", "bubble", true), after: "e1");
        var again = Note("e3", "b", 9, FindingStatus.Reopened, after: "e2");
        var story = Assert.Single(Replay([again, test, repair], Found).Stories);
        Assert.Equal([FindingStatus.Open, FindingStatus.Repaired, FindingStatus.Verified, FindingStatus.Reopened], story.Lines.Select(l => l.Entry.Status));
        Assert.Equal(10, story.Weights.Single().Movement.AddedKilograms, 1e-4);
        Assert.Equal("e1", story.Weights.Single().Event!.Id);
        Assert.Equal(["e3"], story.Latest);
        Assert.False(story.IsApart);
        Assert.Equal("repaired 2026-06-05, verified", Assert.Single(Replay([test, repair], Found).Stories).Finding.InWords());
    }

    [Fact]
    public void Replay_EntriesMadeApart_AreBothKeptAndToldUntilTheNextSettlesIt()
    {
        var one = Note("e1", "a", 5, FindingStatus.Repaired);
        var other = Note("e2", "b", 6, FindingStatus.Isolated);
        var apart = Assert.Single(Replay([other, one], Found).Stories);
        Assert.True(apart.IsApart);
        Assert.Equal(["e1", "e2"], apart.Latest);
        Assert.Equal(3, apart.Lines.Count);
        Assert.False(Assert.Single(Replay([other, one, Note("e3", "a", 7, FindingStatus.Repaired, after: ["e1", "e2"])], Found).Stories).IsApart);
        Assert.False(Assert.Single(Replay([other, one, Withdraw("e2")], Found).Stories).IsApart);
    }

    /// <summary>The clock of the device that repaired is an hour ahead of that which tested.</summary>
    [Fact]
    public void Replay_OfClocksApart_HasAnEntryAfterThoseItsWriterKnew()
    {
        var repair = Note("e1", "a", 5, FindingStatus.Repaired);
        var test = Note("e2", "b", 5, FindingStatus.Verified, new VerificationTest(TestShop.Day(6, 5), "initial", "bubble", true), after: "e1") with { Time = repair.Time.AddHours(-1) };
        Assert.Equal([FindingStatus.Open, FindingStatus.Repaired, FindingStatus.Verified], Assert.Single(Replay([test, repair], Found).Stories).Lines.Select(l => l.Entry.Status));
    }

    [Fact]
    public void Replay_MiddleEntryTakenBack_LeavesNoneMadeApart()
    {
        JournalEvent[] events = [Note("e1", "a", 5, FindingStatus.Isolated), Note("e2", "a", 6, FindingStatus.Isolated, after: "e1"), Note("e3", "a", 7, FindingStatus.Repaired, after: "e2"), Withdraw("e2")];
        Assert.Equal(["e3"], Assert.Single(Replay(events, Found).Stories).Latest);
    }

    [Fact]
    public void Replay_EntryTakenBackAfterItsFileWasReadIn_StaysTakenBack()
    {
        var noted = Note("e1", "a", 5, FindingStatus.Repaired, added: 10);
        JournalEvent[] events = [noted, .. ServiceJournal.Events(Replay([noted], Found).File), Withdraw("e1")];
        var state = Replay(events, Found);
        Assert.Equal(FindingStatus.Open, Assert.Single(state.Stories).Finding.Entry.Status);
        Assert.Empty(state.File.Record.Movements);
    }

    [Fact]
    public void Events_OfALaterFileWithMoreOfOtherDays_AreTheSame()
    {
        var earlier = Record(Entry("F1", 5, FindingStatus.Open)).Append(Entry("F1", 7, FindingStatus.Repaired));
        var later = Record(Entry("F0", 2, FindingStatus.Open)).Append(Entry("F1", 5, FindingStatus.Open)).Append(Entry("F1", 7, FindingStatus.Repaired));
        Assert.Subset(ServiceJournal.Events(later).Select(e => e.Write()).ToHashSet(), ServiceJournal.Events(earlier).Select(e => e.Write()).ToHashSet());
    }

    [Fact]
    public void Replay_EntryTakenBack_CountsNoMoreWithItsWeight()
    {
        var state = Replay([Note("e1", "a", 5, FindingStatus.Repaired, added: 10), Withdraw("e1")], Found);
        var story = Assert.Single(state.Stories);
        Assert.Equal(FindingStatus.Open, story.Finding.Entry.Status);
        Assert.Equal("e1", Assert.Single(story.TakenBack).Id);
        Assert.Empty(state.File.Record.Movements);
    }

    [Fact]
    public void Replay_PanelAtAnUnrepairedFindingOfTheRecord_IsAnEntryOfThat()
    {
        var open = ServiceJournal.Events(Record(Entry("F1", 1, FindingStatus.Open) with { Along = 1.4 }));
        Assert.Equal("F1", Assert.Single(Replay(open, Found).Stories).Finding.Entry.Finding);
        // What is then done on the same day does not part them.
        Assert.Single(Replay([.. open, Note("e1", "a", 4, FindingStatus.Repaired) with { Body = ServiceJournal.Body(Shop, Entry("F1", 4, FindingStatus.Repaired), null, []) }], Found).Stories);
        // Repaired before, elsewhere, or another case: a finding of its own.
        foreach (var apart in (ServiceEntry[])[Entry("F1", 3, FindingStatus.Repaired) with { Along = 1.4 }, Entry("F1", 1, FindingStatus.Open) with { Along = 3 }, Entry("F1", 1, FindingStatus.Open) with { Fixture = "C2" }])
            Assert.Equal(2, Replay(ServiceJournal.Events(Record(apart)), Found).Stories.Count);
    }

    [Fact]
    public void Events_OfTheFileWrittenFromThem_AddNothing()
    {
        // Read back on a device that has the journal too, no entry and no weight may count twice.
        var noted = new[] { Note("e1", "a", 5, FindingStatus.Repaired, added: 10), Note("e2", "a", 6, FindingStatus.Repaired, added: 10, after: "e1") };
        var state = Replay(noted, Found);
        var back = Replay([.. noted, .. ServiceJournal.Events(state.File)], Found);
        Assert.Equal(state.File.Root.ToJsonString(), back.File.Root.ToJsonString());
        Assert.Equal(2, back.File.Record.Movements.Count);
        Assert.Equal(state.File.Root.ToJsonString(), Replay(ServiceJournal.Events(state.File)).File.Root.ToJsonString());
    }

    [Fact]
    public void Events_ReadTwice_AreTheSameAndKeepWhatStoreMapDoesNotKnow()
    {
        var file = ServiceRecordFile.Parse("""
            {"format":"storemap-service/1","store":"test-shop","units":"ft","weightUnit":"lb","entries":[
              {"finding":"F1","date":"2026-05-10","fixture":"27a","at":4.50,"status":"open","colour":"red"},
              {"finding":"F1","date":"2026-05-12","status":"repaired"}],
             "movements":[{"date":"2026-05-12","system":"A","refrigerant":"R-448A","added":12},{"date":"2026-05-12","system":"A","refrigerant":"R-448A","added":12}]}
            """, null, Shop);
        var events = ServiceJournal.Events(file);
        Assert.Equal(4, events.Select(e => e.Id).Distinct().Count());
        var state = Replay([.. events, .. ServiceJournal.Events(file)]);
        Assert.Equal("red", (string?)state.File.Root["entries"]![0]!["colour"]);
        Assert.Equal(24 * 0.45359237, state.File.Record.Movements.Sum(m => m.AddedKilograms), 9);
        Assert.All(events, e => Assert.NotNull(JournalEvent.Parse(e.Write())));
    }

    [Fact]
    public void Replay_FileInOtherUnits_CountsTheSameMetresAndKilograms()
    {
        var file = ServiceRecordFile.New("test-shop", WeightUnit.Kilogram, LengthUnit.Metre).Append(Entry("F1", 1, FindingStatus.Open) with { Along = 1.5 }).Append(new RefrigerantMovement(TestShop.Day(6, 1), "A", "R-448A", 7, 0));
        var record = Replay(ServiceJournal.Events(file)).File.Record;
        Assert.Equal(1.5, record.Entries[0].Along!.Value, 9);
        Assert.Equal(7, record.Movements[0].AddedKilograms, 9);
    }

    [Fact]
    public void Replay_EntryThatDoesNotFit_IsLeftOutAndToldAndTheRestStays()
    {
        var gone = Note("e1", "a", 5, FindingStatus.Repaired) with { Body = ServiceJournal.Body(Shop, Entry("X", 5, FindingStatus.Open) with { Fixture = "GONE" }, null, []) };
        var odd = gone with { Id = "e2", Body = new JsonObject { ["entry"] = new JsonObject { ["finding"] = 7 } } };
        var state = Replay([gone, odd, gone with { Id = "e3", Survey = "other" }], Found);
        Assert.Single(state.Stories);
        Assert.Contains(state.LeftOut, p => p.Message.Contains("GONE", StringComparison.Ordinal) && p.Message.EndsWith("It was left out; it stays in the journal.", StringComparison.Ordinal));
    }

    [Fact]
    public void Replay_AnyOrderWithRepeats_IsTheSame()
    {
        JournalEvent[] events =
        [
            .. ServiceJournal.Events(Record(Entry("F1", 1, FindingStatus.Open) with { Along = 1.4 })), Note("e1", "a", 5, FindingStatus.Repaired, added: 3), Note("e2", "b", 5, FindingStatus.Isolated),
            Note("e3", "a", 7, FindingStatus.Reopened, after: ["e1", "e2"]), Withdraw("e2"),
        ];
        var expected = Said(Replay(events, Found, Panel(1, 6)));
        Gen.Shuffle(events).Select(Gen.Int[0, events.Length]).Sample((shuffled, repeat) => Said(Replay([.. shuffled, .. shuffled.Take(repeat)], Panel(1, 6), Found)) == expected);
        static string Said(ServiceState s) => s.File.Root.ToJsonString() + string.Join(';', s.Stories.Select(f => string.Join(',', f.Latest)));
    }

    [Fact]
    public void Replay_PhotosOfAFinding_AreItsOwnUnlessTakenBack()
    {
        JournalEvent Photo(string id, string finding) => Withdraw("") with { Id = id, Kind = JournalKinds.Photo, Body = new JsonObject { ["photo"] = $"picture-{id}", ["finding"] = finding } };
        var state = Replay([Note("e1", "a", 5, FindingStatus.Open), Photo("f1", "C1/2 2026-06-04"), Photo("f2", "C1/2 2026-06-04"), Photo("f3", "another"), Withdraw("f2")], Found);
        Assert.Equal(["picture-f1"], Assert.Single(state.Stories).Photos);
    }

    private static ServiceState Replay(IEnumerable<JournalEvent> events, params FoundPanel[] panels) => ServiceJournal.Replay(Shop, events, panels);

    private static FoundPanel Panel(int number, int day) => new("s1", new PanelLook($"p{number}", $"C1/{number}", true, "flare", new DateTimeOffset(2026, 6, day, 23, 30, 0, TimeSpan.FromHours(-5))), "Ada Brook");

    private static ServiceEntry Entry(string finding, int day, FindingStatus status) => new() { Finding = finding, Date = TestShop.Day(6, day), Fixture = "C1", Status = status };

    private static ServiceRecordFile Record(ServiceEntry entry) => ServiceRecordFile.New("test-shop", WeightUnit.Pound, LengthUnit.Foot).Append(entry);

    private static JournalEvent Note(string id, string device, int day, FindingStatus status, VerificationTest? test = null, double added = 0, params string[] after) => new()
    {
        Id = id, Survey = "test-shop", Device = device, Number = int.Parse(id[1..], System.Globalization.CultureInfo.InvariantCulture), Kind = JournalKinds.Service,
        Time = new DateTimeOffset(2026, 6, day, 12, 0, 0, TimeSpan.Zero),
        Body = ServiceJournal.Body(
            Shop, Entry("C1/2 2026-06-04", day, status) with { Tests = test is null ? [] : [test] },
            added > 0 ? new RefrigerantMovement(TestShop.Day(6, day), "A", "R-448A", added, 0, "C1/2 2026-06-04") : null, after),
    };

    private static JournalEvent Withdraw(string of) => new()
    {
        Id = "w" + of, Survey = "test-shop", Device = "b", Number = 9, Kind = JournalKinds.Withdraw, Time = new DateTimeOffset(2026, 6, 10, 0, 0, 0, TimeSpan.Zero), Body = new JsonObject { ["of"] = of },
    };
}
