using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Puts a survey together from its events.</summary>
public static class JournalReplay
{
    /// <summary>Replays the events of one survey.</summary>
    /// <param name="store">The store's id.</param>
    /// <param name="units">Unit of distances in the events.</param>
    /// <param name="start">Start of the visit.</param>
    /// <param name="events">In any order, repeats allowed.</param>
    public static JournalState Replay(string store, LengthUnit units, DateTimeOffset start, IEnumerable<JournalEvent> events)
    {
        var conflicts = new List<string>();
        var once = Once(events, conflicts);
        var withdrawn = Texts(once, JournalKinds.Withdraw, "of");
        List<JournalEvent> counting = [.. once.Where(e => !withdrawn.Contains(e.Id))];
        var items = Items(counting);
        var read = counting.Where(e => e.Kind == JournalKinds.Reading).Select(e => Text(e, "point")).OfType<string>().Distinct().ToList();
        var ended = counting.Any(e => e.Kind == JournalKinds.Close);
        if (ended && items.Exists(i => i.Ended is null)) conflicts.Add("The visit was ended while something was still off. Restore it or hand it over, then end the visit again.");
        return new JournalState(() => File(store, units, start, counting))
        {
            Events = counting, Read = read, LeftOff = items, Conflicts = conflicts,
            Skipped = [.. Of(counting, JournalKinds.Skip).Select(e => new SkippedPoint(Text(e, "point") ?? "", Text(e, "reason") ?? "")).Where(s => !read.Contains(s.Point)).DistinctBy(s => s.Point)],
            CloseIns = [.. Of(counting, JournalKinds.CloseIn).Select(e => new CloseInPlace(Text(e, "fixture") ?? "", Number(e, "at"), KebabNames.Parse<Spot>(Text(e, "spot")))).Distinct()],
            Panels = Panels(counting),
            Stops = [.. Of(counting, JournalKinds.StopWork).Select(e => Stop(counting, e))],
            Notes = [.. counting.Select(Note).OfType<JournalNote>()],
            Closed = ended && items.TrueForAll(i => i.Ended is not null),
        };
    }

    /// <summary>Reads the survey of a replay; a reading that does not fit the plan is left out and told, never the whole survey.</summary>
    /// <param name="state">The replay.</param>
    /// <param name="plan">The store's plan.</param>
    /// <param name="points">Its probe points.</param>
    public static SurveyReadResult Read(JournalState state, Plan plan, IReadOnlyList<ProbePoint> points)
    {
        var text = state.FileText;
        JsonObject? file = null;
        var left = new List<Problem>();
        while (true)
        {
            try
            {
                var document = SurveyDocument.Parse(text, null, plan, points);
                return new SurveyReadResult(document.Survey, [.. left, .. document.Warnings]);
            }
            catch (RefusedInputException refused)
            {
                var bad = refused.Problems.Where(p => p.Severity == Severity.Error).Select(p => IndexOf(p.Element)).OfType<int>().Distinct().OrderDescending().ToList();
                if (bad.Count == 0) throw;
                file ??= state.File.DeepClone().AsObject();
                foreach (var i in bad) file["readings"]!.AsArray().RemoveAt(i);
                text = file.ToJsonString();
                left.AddRange(refused.Problems.Where(p => p.Severity == Severity.Error).Select(p => p with { Severity = Severity.Warning, Message = p.Message + " The reading was left out; it stays in the journal." }));
            }
        }
    }

    /// <summary>A reading as a survey file has it, with the time at which it was noted where it tells no other.</summary>
    /// <param name="e">The event of a reading.</param>
    public static JsonObject Reading(JournalEvent e)
    {
        var reading = e.Body.DeepClone().AsObject();
        reading["time"] ??= Stamp(e.Time);
        return reading;
    }

    /// <summary>Each event once, by time, device and number.</summary>
    internal static List<JournalEvent> Once(IEnumerable<JournalEvent> events, List<string> conflicts)
    {
        var once = new List<JournalEvent>();
        foreach (var same in events.GroupBy(e => e.Id, StringComparer.Ordinal))
        {
            if (same.Take(2).Count() == 1)
            {
                once.Add(same.First());
                continue;
            }

            var texts = same.Select(e => (Event: e, Text: e.Write())).DistinctBy(e => e.Text).OrderBy(e => e.Text, StringComparer.Ordinal).ToList();
            once.Add(texts[0].Event);
            if (texts.Count > 1) conflicts.Add($"The entry {same.Key} came with two contents; the first is used.");
        }

        conflicts.Sort(StringComparer.Ordinal);
        return [.. once.OrderBy(e => e.Time).ThenBy(e => e.Device, StringComparer.Ordinal).ThenBy(e => e.Number).ThenBy(e => e.Id, StringComparer.Ordinal)];
    }

    private static List<LeftOffItem> Items(List<JournalEvent> events)
    {
        var items = new List<LeftOffItem>();
        foreach (var opened in Of(events, JournalKinds.LeftOff))
        {
            var ends = events.Where(e => e.Kind is JournalKinds.Restored or JournalKinds.HandedOver && Text(e, "item") == opened.Id).ToList();
            var what = Text(opened, "what") ?? "";
            items.Add(new LeftOffItem(
                opened.Id, what, Text(opened, "fixture"), opened.Time, ends.Count > 0 ? ends[0].Time : null, ends.Count > 0 ? Text(ends[0], "to") : null)
            {
                IsEndedTwice = ends.Select(e => e.Kind).Distinct().Count() > 1,
            });
        }

        return items;
    }

    private static StoppedWork Stop(List<JournalEvent> events, JournalEvent stop)
    {
        var mine = events.Where(e => e.Device == stop.Device).OrderBy(e => e.Number).ToList();
        var after = mine.Where(e => e.Number > stop.Number).ToList();
        return new StoppedWork(stop.Time, Text(stop, "gas") ?? "", Number(stop, "ppm"), Text(stop, "level") == "out" ? StopLevel.Out : StopLevel.Leave)
        {
            IsOverRange = stop.Body["over"]?.GetValueKind() == JsonValueKind.True,
            Place = mine.LastOrDefault(e => e.Kind == JournalKinds.Reading && e.Number < stop.Number) is { } read
                ? new StoppedPlace(Text(read, "point"), Text(read, "fixture"), Measured(read, "at")) : null,
            Aired = after.TakeWhile(e => e.Kind != JournalKinds.StopWork).FirstOrDefault(e => e.Kind == JournalKinds.StopAnswered)?.Time,
            WentOn = after.Exists(e => e.Kind == JournalKinds.Reading),
        };
    }

    private static JournalNote? Note(JournalEvent e)
    {
        var text = e.Kind switch { JournalKinds.Note => Text(e, "text"), JournalKinds.Photo => Text(e, "note"), _ => null };
        return string.IsNullOrWhiteSpace(text) ? null
            : new JournalNote(e.Time, text, e.Kind == JournalKinds.Photo) { Point = Text(e, "point"), Fixture = Text(e, "fixture"), Panel = Text(e, "panel") };
    }

    private static List<PanelLook> Panels(List<JournalEvent> events) =>
    [
        .. Of(events, JournalKinds.Panel).Where(e => Text(e, "panel") is not null)
            .Select(e => new PanelLook(e.Id, Text(e, "panel")!, e.Body["leak"]?.GetValueKind() == JsonValueKind.True, Text(e, "component"), e.Time, Date(e, "day")))
            .GroupBy(p => p.Panel).Select(g => g.Last()).OrderBy(p => p.Time).ThenBy(p => p.Panel, StringComparer.Ordinal),
    ];

    private static JsonObject File(string store, LengthUnit units, DateTimeOffset start, List<JournalEvent> events)
    {
        var starts = Of(events, JournalKinds.Start).ToList();
        var file = new JsonObject
        {
            ["format"] = "storemap-survey/1", ["store"] = store, ["units"] = units.Symbol(), ["start"] = Stamp(start),
            ["technicians"] = new JsonArray([.. starts.Select(e => Text(e, "technician")).Where(t => !string.IsNullOrWhiteSpace(t)).Distinct().Select(t => (JsonNode)t!)]),
            ["instruments"] = new JsonArray([.. starts.Select(e => e.Body["instrument"]).OfType<JsonObject>().GroupBy(i => i["id"].Text()).Select(same => same.Last().DeepClone())]),
        };
        var readings = new JsonArray();
        foreach (var e in Of(events, JournalKinds.Reading)) readings.Add((JsonNode)Reading(e));

        file["readings"] = readings;
        return file;
    }

    private static IEnumerable<JournalEvent> Of(List<JournalEvent> events, string kind) => events.Where(e => e.Kind == kind);

    private static HashSet<string> Texts(List<JournalEvent> events, string kind, string field) => [.. Of(events, kind).Select(e => Text(e, field)).OfType<string>()];

    private static string? Text(JournalEvent e, string field) => e.Body[field].Text();

    private static double Number(JournalEvent e, string field) => Measured(e, field) ?? 0;

    private static double? Measured(JournalEvent e, string field) => e.Body[field] is JsonValue v && v.GetValueKind() == JsonValueKind.Number ? (double)v : null;

    private static DateOnly? Date(JournalEvent e, string field) => DateOnly.TryParseExact(Text(e, field), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    private static string Stamp(DateTimeOffset time) => time.ToString("yyyy-MM-dd'T'HH:mm:ss.FFFzzz", CultureInfo.InvariantCulture);

    private static int? IndexOf(string? element)
    {
        const string Prefix = "readings[";
        if (element?.StartsWith(Prefix, StringComparison.Ordinal) != true) return null;
        return int.TryParse(element.AsSpan(Prefix.Length, element.Length - Prefix.Length - 1), CultureInfo.InvariantCulture, out var i) ? i : null;
    }
}
