using System.Text.Json.Nodes;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Tests.Routing;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

/// <summary>A visit to the demo store noted in a journal: every planned point read at 1 ppm but those left out or skipped.</summary>
internal sealed class JournalVisit
{
    private readonly List<JournalEvent> events = [];
    private readonly HashSet<string> left = [];

    /// <summary>04:00 by the store's clocks, and by the device's own, which is set to another zone.</summary>
    public static DateTimeOffset Start { get; } = new(2026, 8, 4, 9, 0, 0, TimeSpan.Zero);

    public static Plan Plan => DemoRoute.Plan;

    /// <summary>The planned points of a case along its front, from its left end on.</summary>
    public static IReadOnlyList<ProbePoint> Front(string fixture) =>
        [.. DemoRoute.Draft.Points.Where(p => p.Fixture == fixture && p.Pass == ProbePass.Front).OrderBy(p => Plan.FindFixture(fixture)!.FromLeft(p.Along!.Value))];

    public JournalVisit Left(params IEnumerable<ProbePoint> points)
    {
        foreach (var p in points) left.Add(p.Id);
        return this;
    }

    public JournalVisit Skip(string reason, params IEnumerable<ProbePoint> points)
    {
        foreach (var p in points) Left(p).Note(JournalKinds.Skip, 5, new() { ["point"] = p.Id, ["reason"] = reason });
        return this;
    }

    public JournalVisit Read(ProbePoint point, string ppm, string? note = null) =>
        Left(point).Note(JournalKinds.Reading, 30, new() { ["point"] = point.Id, ["ppm"] = ppm, ["note"] = note });

    public JournalVisit Note(string kind, int minute, JsonObject body, string device = "d1")
    {
        events.Add(new JournalEvent { Id = $"e{events.Count}", Survey = "s1", Device = device, Number = events.Count, Time = Start.AddMinutes(minute), Kind = kind, Body = body });
        return this;
    }

    /// <summary>The device of the readings that are no entries of their own.</summary>
    public string Device { get; init; } = "d2";

    /// <summary>Id of the last entry.</summary>
    public string Last => events[^1].Id;

    public VisitStudy Study(string language = "en", LengthUnit? unit = null, bool withJournal = true)
    {
        var readings = DemoRoute.Draft.Points.Where(p => !left.Contains(p.Id)).Select((p, i) => new JournalEvent
        {
            Id = $"r{i}", Survey = "s1", Device = Device, Number = i, Time = Start.AddSeconds(10 * i), Kind = JournalKinds.Reading, Body = new JsonObject { ["point"] = p.Id, ["ppm"] = "1" },
        });
        var start = new JournalEvent { Id = "start", Survey = "s1", Device = "d1", Number = 0, Time = Start, Kind = JournalKinds.Start, Body = new JsonObject { ["technician"] = "P. Thistlewood" } };
        var state = JournalReplay.Replay(Plan.Id, Plan.Units, Start, new[] { start }.Concat(readings).Concat(events).Select(e => JournalEvent.Parse(e.Write())!));
        var survey = JournalReplay.Read(state, Plan, DemoRoute.Draft.Points).Survey;
        var net = NetSurveyBuilder.Build(Plan, survey);
        var read = survey.Readings.Select(r => r.Place.Fixture).ToHashSet();
        // Nothing is to be located here: what was found is given.
        var located = new LocateResult([], [], [], [], [.. Plan.Fixtures.Where(f => !read.Contains(f.Id)).Select(f => f.Id)], null);
        return new VisitStudy(Plan.ShownIn(unit), DemoRoute.Draft.Points, [net], null, new SheetContext { Language = language, PlanPaper = PaperSize.Find(language == "en" ? "letter" : "A4") })
        {
            Known = [new SurveyVisit(net, located, DemoRoute.Draft.Points)],
            Journals = (withJournal ? [state] : Array.Empty<JournalState>()).ToLookup(_ => DateOnly.FromDateTime(survey.Start.DateTime)),
        };
    }

    /// <summary>The text of the record, its lines joined.</summary>
    public string Record(string language = "en", LengthUnit? unit = null, bool withJournal = true) => TextOf(Study(language, unit, withJournal).Report(ReportParts.Record));

    /// <summary>The text of page one.</summary>
    public string Summary(string language = "en") => TextOf([Assert.Single(Study(language).Summary())]);

    private static string TextOf(IReadOnlyList<Sheet> sheets)
    {
        Assert.All(sheets, SheetChecks.AllHold);
        return string.Join(' ', sheets.SelectMany(s => SheetChecks.TextsIn(SheetChecks.Parse(s), "text")).Select(t => t.Text));
    }
}
