using System.Text;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Walks marked in a device's journal, and the monitor's log put in place by them.</summary>
public partial class LogAlignerTests
{
    private static readonly TimeSpan Local = TimeSpan.FromHours(-6);

    // There and back at 1 ft/s, marked by a device whose clock is behind the monitor's.
    private static JournalEvent[] ThereAndBack(double behind, string device = "d1") =>
    [
        Mark(0, 10 - behind, "start", 0, device), Mark(1, 34 - behind, "end", 24, device), Mark(2, 40 - behind, "start", 24, device), Mark(3, 64 - behind, "end", 0, device),
    ];

    private static JournalEvent Mark(int number, double seconds, string name, double at, string device = "d1") => new()
    {
        Id = $"{device}-{number}", Survey = "s1", Device = device, Number = number, Time = new DateTimeOffset(Start.AddSeconds(seconds), Local), Kind = JournalKinds.Mark,
        Body = new JsonObject { ["event"] = name, ["fixture"] = "C2", ["at"] = at, ["height"] = "low", ["air"] = "fans-off" },
    };

    private static JournalState Journal(params JournalEvent[] events) => JournalReplay.Replay(TestStore.Plan.Id, LengthUnit.Foot, new DateTimeOffset(Start, Local), events);

    [Theory]
    [InlineData(0)]
    [InlineData(3)]
    public void Align_MarksOfAJournal_PutThePeakAtTheLeakWhateverTheDevicesClock(double behind)
    {
        var log = Log(t => t is >= 10 and <= 34 ? t - 10 : t is >= 40 and <= 64 ? 64 - t : null, 90, new SensorModel(5, 5));
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(log));
        var aligned = JournalMarks.Align(Journal(ThereAndBack(behind)), "d1", TestStore.Plan, TestStore.Points, stream, new SurveyReadOptions());
        Assert.Equal(LeakFeet, PeakFeet(aligned), 1.0);
        Assert.Equal(behind, aligned.ClockOffsetSeconds!.Value, 1.0);
        Assert.All(aligned.Survey.Readings, r => Assert.Equal((AirState.FansOff, ProbeHeight.Low), (r.Air, r.Height)));
    }

    [Fact]
    public void Walks_OtherDevicesMarksWithdrawnOnesAndWalksWithoutEnd_AreNoneOfTheLogs()
    {
        var state = Journal(
            [.. ThereAndBack(0), .. ThereAndBack(-1, "d2"), Mark(4, 70, "start", 0), Mark(5, 71, "end", 24), Mark(6, 80, "start", 24),
             new JournalEvent { Id = "w", Survey = "s1", Device = "d1", Number = 7, Time = new DateTimeOffset(Start.AddSeconds(81), Local), Kind = JournalKinds.Withdraw, Body = new JsonObject { ["of"] = "d1-4" } }]);
        var walks = JournalMarks.Walks(state, "d1");
        Assert.Equal([0, 24, 24], walks.Select(w => w.At));
        Assert.Equal([true, true, false], walks.Select(w => w.Until is not null));
        Assert.Equal(1 + (2 * 2), JournalMarks.Csv(state, "d1").Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }

    [Fact]
    public void Walked_OnAnotherDevice_IsWalkedHereAndReadOnceItsLogIs()
    {
        Assert.Empty(JournalMarks.Walked(Journal(Mark(0, 10, "start", 0, "d2"))));
        Assert.Equal([new("C2", false)], JournalMarks.Walked(Journal(ThereAndBack(0, "d2"))));
        JournalEvent Reading(string device) => new()
        {
            Id = device + "-log", Survey = "s1", Device = device, Number = 9, Time = new DateTimeOffset(Start.AddSeconds(90), Local), Kind = JournalKinds.Reading,
            Body = new JsonObject { ["fixture"] = "C2", ["at"] = 3, ["ppm"] = "4" },
        };
        // What another device logged there is not the log of this walk.
        Assert.Equal([new("C2", false)], JournalMarks.Walked(Journal([.. ThereAndBack(0, "d2"), Reading("d1")])));
        Assert.Equal([new("C2", true)], JournalMarks.Walked(Journal([.. ThereAndBack(0, "d2"), Reading("d2")])));

        // Walked here too, its numbers are still in this monitor.
        Assert.Equal([new("C2", false)], JournalMarks.Walked(Journal([.. ThereAndBack(0, "d2"), Reading("d2"), .. ThereAndBack(0)])));
    }

    [Fact]
    public void Walked_OfMarksWhoseFieldsAreNoText_PassesThemOver()
    {
        var odd = Mark(0, 10, "start", 0) with { Body = new JsonObject { ["event"] = 1, ["fixture"] = 2, ["at"] = "x" } };
        Assert.Empty(JournalMarks.Walked(Journal(odd)));
    }

    [Fact]
    public void Csv_OfAJournal_IsAMarksFile()
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(JournalMarks.Csv(Journal(ThereAndBack(0)), "d1")));
        var (marks, warnings) = MarksCsv.Read(stream, null, TestStore.Plan, TestStore.Points);
        Assert.Empty(warnings);
        Assert.Equal([MarkEvent.Start, MarkEvent.End, MarkEvent.Start, MarkEvent.End], marks.Select(m => m.Event));
        Assert.Equal([0, 24, 24, 0], marks.Select(m => Math.Round(m.Reading.Place.Along!.Value / TestStore.Ft, 6)));
        Assert.Equal(new DateTimeOffset(Start.AddSeconds(10), Local), marks[0].Time);
    }
}
