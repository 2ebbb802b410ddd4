using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.History;

/// <summary>A store's service record as a journal: each addition is an event of kind <see cref="JournalKinds.Service"/> whose survey is the
/// store's id. Devices add to it apart and it comes together in any order; the file is written from it. Form: docs/formats.md.</summary>
public static class ServiceJournal
{
    /// <summary>The body of an event.</summary>
    /// <param name="plan">The store's plan; its units are used.</param>
    /// <param name="entry">What became of a finding; null when only refrigerant was moved.</param>
    /// <param name="movement">Refrigerant weighed with it; null when none was.</param>
    /// <param name="after">The finding's latest entries as its writer knew them; see <see cref="FindingStory.Latest"/>.</param>
    public static JsonObject Body(Plan plan, ServiceEntry? entry, RefrigerantMovement? movement, IReadOnlyList<string> after)
    {
        var body = Units(plan);
        if (entry is not null) body["entry"] = ServiceRecordWriter.Entry(entry, body);
        if (movement is not null) body["movement"] = ServiceRecordWriter.Movement(movement, body);
        body["after"] = new JsonArray([.. after.Select(id => (JsonNode)id)]);
        return body;
    }

    /// <summary>The events of a file. The same element gives the same event, so that a file read in twice, on one device or two, is there once.</summary>
    /// <param name="file">A record of the store.</param>
    public static IReadOnlyList<JournalEvent> Events(ServiceRecordFile file)
    {
        var events = new List<JournalEvent>();
        var times = new Dictionary<string, int>(StringComparer.Ordinal);
        var days = new Dictionary<DateOnly, int>();
        foreach (var list in (string[])[ServiceItem.Entries, ServiceItem.Movements])
        {
            var entries = list == ServiceItem.Entries;
            foreach (var (i, node) in (file.Root[list] as JsonArray ?? []).Index())
            {
                var item = node!.DeepClone().AsObject();
                // By itself it must still say where.
                if (entries && item["fixture"] is null && item["equipment"] is null) Place(item, file.Record, file.Record.Entries[i].Finding);
                var content = $"{file.Record.Store} {file.Root["units"]} {file.Root["weightUnit"]} {list} {item.ToJsonString()}";
                times[content] = times.GetValueOrDefault(content) + 1;
                var body = new JsonObject { ["units"] = file.Root["units"]?.DeepClone(), ["weightUnit"] = file.Root["weightUnit"]?.DeepClone(), [entries ? "entry" : "movement"] = item };
                var hash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{content} {times[content]}")))[..32];
                var date = entries ? file.Record.Entries[i].Date : file.Record.Movements[i].Date;
                // Counted by days, so that a later file with more of other days has the same events.
                days[date] = days.GetValueOrDefault(date) + 1;
                events.Add(Event($"{JournalEvent.FileDevice}-{hash}", file.Record.Store, days[date] - 1, date, body));
            }
        }

        return events;
    }

    /// <summary>Puts the record together.</summary>
    /// <param name="plan">The store's plan.</param>
    /// <param name="events">Events of the store's service journal in any order, repeats allowed; others are passed over.</param>
    /// <param name="panels">Leaks confirmed behind panels. Each opens a finding of its own, <c>C3/2 2026-08-04</c>, unless an unrepaired one of
    /// the fixture lies there (within the panel, or its place was not said): then it is an entry of that.</param>
    public static ServiceState Replay(Plan plan, IEnumerable<JournalEvent> events, IEnumerable<FoundPanel> panels)
    {
        var conflicts = new List<string>();
        var once = JournalReplay.Once(events.Where(e => e.Survey == plan.Id), conflicts);
        var gone = once.Where(e => e.Kind == JournalKinds.Withdraw).Select(e => e.Body["of"].Text()).ToHashSet();
        var all = InOrder([.. once.Where(e => e.Kind == JournalKinds.Service)]).ToLookup(e => gone.Contains(e.Id));
        var file = ServiceRecordWriter.Empty(plan.Id, Weights(plan), plan.Units);
        var noted = all[false].SelectMany(e => ServiceItem.Of(e, file)).ToList();
        var found = PanelFindings.Items(plan, ServiceAssembly.Read(plan, noted), file, panels);
        // On one day: what a file has, then what was found, then what devices noted of it.
        var takenBack = all[true].SelectMany(e => ServiceItem.Of(e, file));
        var read = ServiceAssembly.Read(plan, ServiceItem.Once([.. noted.Where(i => i.IsOfFile), .. found, .. noted.Where(i => !i.IsOfFile)], takenBack));
        return new ServiceState(read.File, Stories(read, [.. all[false]], [.. all[true]], [.. once.Where(e => e.Kind == JournalKinds.Photo && !gone.Contains(e.Id))]), read.LeftOut, conflicts);
    }

    private static List<FindingStory> Stories(ServiceAssembly read, List<JournalEvent> events, List<JournalEvent> takenBack, List<JournalEvent> photos)
    {
        var record = read.File.Record;
        var lines = record.Entries.Zip(read.Entries, (e, i) => new ServiceLine(e, i.Event, i.Panel)).ToLookup(l => l.Entry.Finding);
        var weights = record.Movements.Zip(read.Movements, (m, i) => new ServiceWeight(m, i.Event)).ToLookup(w => w.Movement.Finding);
        var followed = events.SelectMany(After).ToHashSet(StringComparer.Ordinal);
        // Who followed an entry that was taken back knew what that one followed.
        foreach (var e in takenBack.AsEnumerable().Reverse().Where(e => followed.Contains(e.Id))) followed.UnionWith(After(e));
        return
        [
            .. ServiceFinding.Of(record).Select(f => (Finding: f, Id: f.Entry.Finding)).Select(f => new FindingStory
            {
                Finding = f.Finding,
                Lines = [.. lines[f.Id]],
                Weights = [.. weights[f.Id]],
                Latest = [.. lines[f.Id].Select(l => l.Event).OfType<JournalEvent>().Where(e => e.Device != JournalEvent.FileDevice && !followed.Contains(e.Id)).Select(e => e.Id).Order(StringComparer.Ordinal)],
                Photos = [.. photos.Where(e => e.Body["finding"].Text() == f.Id).Select(e => e.Body["photo"].Text()).OfType<string>()],
                TakenBack = [.. takenBack.Where(e => e.Body["entry"] is JsonObject entry && entry["finding"].Text() == f.Id)],
            }),
        ];
    }

    // The devices' clocks differ: an entry comes after those that its writer knew.
    private static List<JournalEvent> InOrder(IReadOnlyList<JournalEvent> events)
    {
        var byId = events.ToDictionary(e => e.Id, StringComparer.Ordinal);
        var (order, seen, done) = (new List<JournalEvent>(), new HashSet<string>(StringComparer.Ordinal), new HashSet<string>(StringComparer.Ordinal));
        foreach (var first in events)
        {
            var open = new Stack<JournalEvent>([first]);
            while (open.TryPeek(out var e))
            {
                if (seen.Add(e.Id))
                {
                    foreach (var id in After(e)) if (!seen.Contains(id) && byId.TryGetValue(id, out var before)) open.Push(before);
                }
                else
                {
                    open.Pop();
                    if (done.Add(e.Id)) order.Add(e);
                }
            }
        }

        return order;
    }

    private static IEnumerable<string> After(JournalEvent e) => e.Body["after"] is JsonArray after ? after.Select(a => a?.ToString()).OfType<string>() : [];

    private static void Place(JsonObject item, ServiceRecord record, string finding)
    {
        var first = record.Entries.First(e => e.Finding == finding && (e.Fixture ?? e.Equipment) is not null);
        item[first.Fixture is null ? "equipment" : "fixture"] = first.Fixture ?? first.Equipment;
    }

    private static JournalEvent Event(string id, string store, int number, DateOnly date, JsonObject body) => new()
    {
        Id = id, Survey = store, Device = JournalEvent.FileDevice, Number = number, Time = new DateTimeOffset(date, default, TimeSpan.Zero), Kind = JournalKinds.Service, Body = body,
    };

    private static JsonObject Units(Plan plan) => new() { ["units"] = plan.Units.Symbol(), ["weightUnit"] = Weights(plan) == WeightUnit.Pound ? "lb" : "kg" };

    /// <summary>The unit of weight that goes with a plan's lengths.</summary>
    /// <param name="plan">The plan.</param>
    public static WeightUnit Weights(Plan plan) => plan.Units.IsCustomary() ? WeightUnit.Pound : WeightUnit.Kilogram;
}
