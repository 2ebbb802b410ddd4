using System.Diagnostics.CodeAnalysis;
using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Web.Storage;

/// <summary>What this device keeps: stores, surveys and their events. A call that has returned from a write has it on the disk.</summary>
[SuppressMessage("Performance", "CA1822:Mark members as static", Justification = "The one store of the device is handed out as a service; its pages need not know which parts keep state.")]
public sealed class LocalStore
{
    private DeviceRecord? device;

    /// <summary>This device's id, made at its first use.</summary>
    public string Device => device?.Device ?? "";

    /// <summary>The technician's name as last given.</summary>
    public string Technician => device?.Technician ?? "";

    /// <summary>The visits that were open on this device and may have left something off, the latest first.</summary>
    public IReadOnlyList<string> Visits => device?.Visit is { } last ? [last, .. device.Earlier ?? []] : [];

    /// <summary>Delay of the monitor as last given, seconds; the usual 5 before.</summary>
    public double DelaySeconds => device?.DelaySeconds ?? 5;

    /// <summary>What the monitor shows from as last given, ppm; 1 before.</summary>
    public double LimitPpm => device?.LimitPpm ?? 1;

    /// <summary>Up to where the monitor shows as last given, ppm; the usual 1000 before.</summary>
    public double RangePpm => device?.RangePpm ?? SurveyDefaults.RangePpm;

    /// <summary>True when a mark of an earlier use is there but the data is not: the browser's storage was wiped.</summary>
    public bool Wiped { get; private set; }

    /// <summary><c>lasting</c>, <c>not lasting</c> or <c>unknown</c>.</summary>
    public string Lasting { get; private set; } = "unknown";

    public async Task Open()
    {
        await Browser.OpenDatabase();
        device = JsonSerializer.Deserialize(await Browser.Get("meta", "device"), Json.Default.DeviceRecord);
        var fresh = device is null;
        if (fresh) await Put(new DeviceRecord { Device = Guid.NewGuid().ToString("N")[..12] });
        Wiped = Browser.Mark(Device).Length > 0 && fresh;
        Lasting = await Browser.Persist();
        foreach (var record in await Stores()) await TakeService(record);
    }

    /// <summary>Language code of the sheets, as chosen on this device.</summary>
    public string Language => device?.Language ?? "en";

    /// <summary>The company that sheets name, as given on this device.</summary>
    public string Company => device?.Company ?? "";

    /// <summary>Symbol of the unit in which this device's screens show and take lengths, <c>ft</c> or <c>m</c>; empty for each plan's own. Layout
    /// files, rules and walk sheets keep the plan's.</summary>
    public string Lengths => device?.Lengths ?? "";

    /// <summary>A plan with the unit in which its lengths are shown here: for words alone.</summary>
    public Plan Shown(Plan plan) => plan.ShownIn(LengthUnits.FromSymbol(Lengths));

    public Task SetLengths(string symbol) => Put(device! with { Lengths = symbol });

    /// <summary>Keeps which visit is open, so that what it leaves off is shown when the client is opened anew.</summary>
    public Task SetVisit(string survey) =>
        survey == device!.Visit ? Task.CompletedTask : Put(device with { Visit = survey, Earlier = [.. Visits.Where(v => v != survey)] });

    /// <summary>Forgets visits that have left nothing off; the last one is kept all the same.</summary>
    public Task ForgetVisits(IReadOnlyCollection<string> done) =>
        device?.Earlier is { } earlier && earlier.Any(done.Contains) ? Put(device with { Earlier = [.. earlier.Where(v => !done.Contains(v))] }) : Task.CompletedTask;

    public Task SetTechnician(string name) => Put(device! with { Technician = name });

    public Task SetMonitor(double delaySeconds, double limitPpm, double rangePpm) => Put(device! with { DelaySeconds = delaySeconds, LimitPpm = limitPpm, RangePpm = rangePpm });

    /// <summary>Keeps how sheets are to be written.</summary>
    public Task SetSheets(string language, string company) => Put(device! with { Language = language, Company = company.Trim() });

    private Task Put(DeviceRecord record) => Browser.Put("meta", JsonSerializer.Serialize(device = record, Json.Default.DeviceRecord));

    public async Task<IReadOnlyList<StoreRecord>> Stores() =>
        [.. JsonSerializer.Deserialize(await Browser.All("stores"), Json.Default.StoreRecordArray)!.OrderBy(s => s.Name, StringComparer.Ordinal)];

    public async Task<StoreRecord?> Store(string id) => JsonSerializer.Deserialize(await Browser.Get("stores", id), Json.Default.StoreRecord);

    /// <summary>How far a store's service journal was received.</summary>
    public async Task<ServiceCursor> Cursor(string store) =>
        JsonSerializer.Deserialize(await Browser.Get("meta", "service-" + store), Json.Default.ServiceCursor) ?? new ServiceCursor("service-" + store, 0);

    public Task Put(ServiceCursor cursor) => Browser.Put("meta", JsonSerializer.Serialize(cursor, Json.Default.ServiceCursor));

    /// <summary>The plan being drawn of a store that was not saved yet; null without one.</summary>
    public async Task<PlanDraft?> Draft(string store) => JsonSerializer.Deserialize(await Browser.Get("meta", "draft-" + store), Json.Default.PlanDraft) is { Text: not null } draft ? draft : null;

    /// <summary>Keeps the plan being drawn of a store.</summary>
    /// <param name="store">The store.</param>
    /// <param name="version">The server's version that it was begun on.</param>
    /// <param name="from">The layout that it was begun on.</param>
    /// <param name="text">The layout as drawn; null when it is saved.</param>
    public Task PutDraft(string store, int version, string from, string? text) =>
        Browser.Put("meta", JsonSerializer.Serialize(new PlanDraft("draft-" + store, version, text is null ? null : from, text), Json.Default.PlanDraft));

    /// <summary>Changes a store as it is kept at that moment: what a page and the sending change at one time is both kept.</summary>
    /// <param name="id">The store's id.</param>
    /// <param name="change">The change; worked out again when the store was changed meanwhile. Null leaves it as it is.</param>
    /// <returns>The store as it is kept now; null when this device has none of that id.</returns>
    public async Task<StoreRecord?> Change(string id, Func<StoreRecord, StoreRecord?> change)
    {
        while (true)
        {
            var before = await Browser.Get("stores", id);
            if (JsonSerializer.Deserialize(before, Json.Default.StoreRecord) is not { } now || change(now) is not { } then) return JsonSerializer.Deserialize(before, Json.Default.StoreRecord);
            if (await Browser.Swap("stores", before, JsonSerializer.Serialize(then, Json.Default.StoreRecord))) return then;
        }
    }

    public Task Put(StoreRecord record) => Browser.Put("stores", JsonSerializer.Serialize(record, Json.Default.StoreRecord));

    public async Task<IReadOnlyList<SurveyRecord>> Surveys() =>
        [.. JsonSerializer.Deserialize(await Browser.All("surveys"), Json.Default.SurveyRecordArray)!.OrderByDescending(s => s.Started)];

    public async Task<SurveyRecord?> Survey(string id) => JsonSerializer.Deserialize(await Browser.Get("surveys", id), Json.Default.SurveyRecord);

    public Task Put(SurveyRecord record) => Browser.Put("surveys", JsonSerializer.Serialize(record, Json.Default.SurveyRecord));

    public Task Add(JournalEvent e) => Browser.AddEvent(e.Id, e.Survey, e.Write());

    public async Task<IReadOnlyList<JournalEvent>> Events(string survey) =>
        [.. (await EventTexts(survey)).Select(JournalEvent.Parse).OfType<JournalEvent>()];

    public async Task<IReadOnlyList<string>> EventTexts(string survey) => JsonSerializer.Deserialize(await Browser.EventsOf(survey), Json.Default.StringArray)!;

    /// <summary>Keeps a store made from a layout; a store of the same id is left as it is.</summary>
    public async Task<StoreRecord> Keep(LayoutDocument layout)
    {
        if (await Store(layout.Plan.Id) is { } known) return known;
        using var text = new MemoryStream();
        layout.Write(text);
        var record = new StoreRecord { Id = layout.Plan.Id, Name = layout.Plan.Name, Document = System.Text.Encoding.UTF8.GetString(text.ToArray()) };
        await Put(record);
        return record;
    }

    /// <summary>Keeps a visit with its entries, to be sent; what is here already stays as it is.</summary>
    /// <returns>How many entries were new.</returns>
    public async Task<int> Add(string survey, string store, DateTimeOffset started, IReadOnlyList<string> events)
    {
        if (await Survey(survey) is null) await Put(new SurveyRecord { Id = survey, Store = store, Started = started });
        return await Browser.Restore(survey, JsonSerializer.Serialize([.. events], Json.Default.StringArray));
    }

    /// <summary>Adds an entry of this device's to the journal of a survey, or to the service journal of a store. It is on the disk when
    /// this returns.</summary>
    /// <param name="journal">The survey's or the store's id.</param>
    /// <param name="kind">One of <see cref="JournalKinds"/>.</param>
    /// <param name="body">What it tells.</param>
    /// <param name="time">Now.</param>
    /// <param name="keep">Brings it to the disk together with something else; null for by itself.</param>
    public async Task Note(string journal, string kind, JsonObject body, DateTimeOffset time, Func<JournalEvent, Task>? keep = null)
    {
        var number = (await Events(journal)).Where(e => e.Device == Device).Select(e => e.Number + 1).DefaultIfEmpty(0).Max();
        await (keep ?? Add)(new JournalEvent { Id = NewEventId(), Survey = journal, Device = Device, Number = number, Time = time, Kind = kind, Body = body });
    }

    /// <summary>Takes a service record file into its store's service journal; what is there already stays as it is.</summary>
    /// <returns>How many of its entries and weights were new.</returns>
    public Task<int> Add(ServiceRecordFile file) =>
        Browser.Restore(file.Record.Store, JsonSerializer.Serialize([.. ServiceJournal.Events(file).Select(e => e.Write())], Json.Default.StringArray));

    /// <summary>Ids of a journal's entries that the server has not confirmed.</summary>
    public async Task<IReadOnlySet<string>> Unsent(string journal) =>
        JsonSerializer.Deserialize(await Browser.UnsentOf(journal, int.MaxValue), Json.Default.StringArray)!.Select(t => JournalEvent.Parse(t)?.Id).OfType<string>().ToHashSet();

    /// <summary>An id for an entry of this device, unique for ever.</summary>
    public string NewEventId() => $"{Device}-{Guid.NewGuid():N}"[..40];

    public async Task<SurveyRecord> NewSurvey(string store, DateTimeOffset now)
    {
        var record = new SurveyRecord { Id = $"{now:yyyyMMdd}-{Guid.NewGuid():N}"[..26], Store = store, Started = now };
        await Put(record);
        return record;
    }

    /// <summary>Everything of a survey as one file's text.</summary>
    public async Task<string> Backup(SurveyRecord survey, StoreRecord store) => JsonSerializer.Serialize(
        new BackupFile
        {
            Store = store, Survey = survey, Events = await EventTexts(survey.Id), ServiceEvents = await EventTexts(store.Id),
            Photos = await PhotosOf(survey.Id), StorePhotos = await PhotosOf(store.Id),
        },
        Json.Default.BackupFile);

    private static async Task<BackupPhoto[]> PhotosOf(string journal) => JsonSerializer.Deserialize(await Browser.PhotosOf(journal), Json.Default.BackupPhotoArray)!;

    private static Task Restore(string journal, IReadOnlyList<BackupPhoto> photos) => Browser.RestorePhotos(journal, JsonSerializer.Serialize([.. photos], Json.Default.BackupPhotoArray));

    /// <summary>Reads a backup file back in; what is here already stays.</summary>
    /// <returns>The survey's id and how many entries were new; null when it is no backup.</returns>
    public async Task<(string Survey, int Added)?> ReadBack(string text)
    {
        BackupFile? file;
        try
        {
            file = JsonSerializer.Deserialize(text, Json.Default.BackupFile);
        }
        catch (JsonException)
        {
            return null;
        }

        if (file is null || file.Format != BackupFile.FormatName || !JournalEvent.IsId(file.Survey.Id)) return null;
        if (file.Events.Any(e => JournalEvent.Parse(e)?.Survey != file.Survey.Id) || file.ServiceEvents.Any(e => JournalEvent.Parse(e)?.Survey != file.Store.Id)) return null;
        if (LayoutDocument.TryParse(file.Store.Document, null, out var layout) is var _ && layout?.Plan.Id != file.Store.Id) return null;
        if (file.Photos.Concat(file.StorePhotos).Any(p => !JournalEvent.IsId(p.Id) || !System.Buffers.Text.Base64.IsValid(p.Jpeg))) return null;
        if (await Store(file.Store.Id) is null) await Put(file.Store with { Version = 0, Order = null, Service = null });
        await TakeService(file.Store, keepStore: false);
        await Browser.Restore(file.Store.Id, JsonSerializer.Serialize([.. file.ServiceEvents], Json.Default.StringArray));
        if (await Survey(file.Survey.Id) is null) await Put(file.Survey with { Cursor = 0 });
        await Restore(file.Survey.Id, file.Photos);
        await Restore(file.Store.Id, file.StorePhotos);
        return (file.Survey.Id, await Browser.Restore(file.Survey.Id, JsonSerializer.Serialize([.. file.Events], Json.Default.StringArray)));
    }

    // Earlier versions kept the record as a file's text beside the store.
    private async Task TakeService(StoreRecord record, bool keepStore = true)
    {
        if (record.Service is null) return;
        try
        {
            await Add(ServiceRecordFile.Parse(record.Service));
            if (keepStore) await Change(record.Id, now => now with { Service = null });
        }
        catch (RefusedInputException)
        {
            // It was checked when it was read in. Should it fail all the same, the store still opens, and the text stays.
        }
    }
}
