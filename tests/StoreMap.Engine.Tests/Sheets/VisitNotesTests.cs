using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Tests.Routing;

namespace StoreMap.Tests.Sheets;

/// <summary>What was noted at a visit, with readings and without, as the report tells it.</summary>
public class VisitNotesTests
{
    [Theory]
    [InlineData("en", "Note at 2A Dairy, 6'-0\" from the left end, 7 ppm: “oil at the drain”", "Note at 2A Dairy, 10'-0\" from the left end, under 1 ppm: “drip pan full”")]
    [InlineData("de", "Notiz bei 2A Dairy, 6'-0\" vom linken Ende, 7 ppm: „oil at the drain“", "Notiz bei 2A Dairy, 10'-0\" vom linken Ende, unter 1 ppm: „drip pan full“")]
    public void Record_OfNotesWithReadings_TellsPlaceNumberAndNote(string language, string note, string below)
    {
        var front = JournalVisit.Front("C3");
        var visit = new JournalVisit().Read(front[1], "7", "oil at\n the  drain").Read(front[2], "<1", "drip pan full");
        Assert.All([true, false], withJournal =>
        {
            var text = visit.Record(language, withJournal: withJournal);
            Assert.Contains(note, text, StringComparison.Ordinal);
            Assert.Contains(below, text, StringComparison.Ordinal);
        });
    }

    /// <summary>Of too many notes those at hits are kept.</summary>
    [Fact]
    public void Record_OfManyNotes_KeepsThoseAtHitsAndCountsTheRest()
    {
        var front = DemoRoute.Draft.Points.Where(p => p.Pass == ProbePass.Front).Take(20).ToList();
        var visit = new JournalVisit();
        foreach (var (i, p) in front.Index()) visit.Read(p, i == 19 ? "60" : "1", $"note {i}.");
        var text = visit.Record();
        Assert.Contains("60 ppm: “note 19.”", text, StringComparison.Ordinal);
        Assert.Contains("“note 8.”", text, StringComparison.Ordinal);
        Assert.DoesNotContain("“note 9.”", text, StringComparison.Ordinal);
        Assert.Contains("And 10 more.", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("en", "Note at 04:12, the store: “roof hatch open”", "Note with a photo at 04:14, 2A Dairy, 6'-0\" from the left end: “frost on the elbow”", "Note with a photo at 04:15, 2A panel 2: “oil”", "Note with a photo at 04:16, 2A Dairy: “no light”")]
    [InlineData("de", "Notiz um 04:12, ganzer Markt: „roof hatch open“", "Notiz mit Foto um 04:14, 2A Dairy, 6'-0\" vom linken Ende: „frost on the elbow“", "Notiz mit Foto um 04:15, 2A Blech 2: „oil“", "Notiz mit Foto um 04:16, 2A Dairy: „no light“")]
    public void Record_OfNotesWithoutAReading_TellsTimePlaceAndNote(string language, params string[] lines)
    {
        var visit = new JournalVisit().Note(JournalKinds.Note, 12, new() { ["text"] = "roof\n hatch open" })
            .Note(JournalKinds.Photo, 14, new() { ["photo"] = "p1", ["point"] = JournalVisit.Front("C3")[1].Id, ["fixture"] = "C3", ["note"] = "frost on the elbow" })
            .Note(JournalKinds.Photo, 15, new() { ["photo"] = "p2", ["panel"] = "C3/2", ["note"] = "oil" })
            .Note(JournalKinds.Photo, 16, new() { ["photo"] = "p3", ["fixture"] = "C3", ["note"] = "no light" })
            .Note(JournalKinds.Photo, 17, new() { ["photo"] = "p4", ["fixture"] = "C3" });
        var text = visit.Record(language);
        Assert.All(lines, line => Assert.Contains(line, text, StringComparison.Ordinal));
        Assert.Equal(3, text.Split(language == "en" ? "with a photo" : "mit Foto").Length - 1);
        // Taken back it is gone.
        visit.Note(JournalKinds.Note, 18, new() { ["text"] = "wrong store" }).Note(JournalKinds.Withdraw, 19, new() { ["of"] = visit.Last, ["reason"] = "mistake" });
        Assert.DoesNotContain("wrong store", visit.Record(language), StringComparison.Ordinal);
    }

    [Fact]
    public void Record_OfManyNotesWithoutAReading_CountsTheRest()
    {
        var visit = new JournalVisit();
        for (var i = 1; i <= 33; i++) visit.Note(JournalKinds.Note, i, new() { ["text"] = $"remark {i}." });
        var text = visit.Record();
        Assert.Contains("“remark 20.”", text, StringComparison.Ordinal);
        Assert.DoesNotContain("“remark 21.”", text, StringComparison.Ordinal);
        Assert.Contains("Further notes: 13.", text, StringComparison.Ordinal);
    }
}
