using System.Net;
using System.Text.Json;
using StoreMap.Surveys;

namespace StoreMap.Web.Storage;

/// <summary>How things stand with the server.</summary>
public enum SyncStand
{
    Unknown,
    Sent,
    Sending,
    Offline,
    SignIn,
    Refused,
}

/// <summary>Sends what was logged and fetches what others logged, when there is a network. Logging never waits for it, and sending twice
/// does no harm: the server keeps each entry once.</summary>
public sealed class Sync(HttpClient http, LocalStore store) : IDisposable
{
    private const int BatchSize = 200;
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan Watching = TimeSpan.FromSeconds(5);
    private readonly SemaphoreSlim one = new(1);
    private readonly Server server = new(http);
    private readonly LayoutSync layouts = new(new Server(http), store);
    private Timer? timer;
    private Timer? watch;
    private string? watched;
    private bool wiped;
    private bool asked;
    private int added;

    public event Action? Changed;

    /// <summary>Entries of this survey, or of this store's service journal, came from another device.</summary>
    public event Func<string, Task>? Arrived;

    public SyncStand Stand { get; private set; }

    /// <summary>Entries and changed layouts on this device that the server has not confirmed.</summary>
    public int Unsent { get; private set; }

    public ServerSession? Session { get; private set; }

    /// <summary>What a person must look at.</summary>
    public string? Trouble { get; private set; }

    /// <summary>Seconds that this device's clock is ahead of the server's.</summary>
    public double ClockAhead { get; private set; }

    /// <summary>Begins to send and fetch, now and again and again. Once begun, it goes on.</summary>
    public void Start()
    {
        if (timer is not null) return;
        Browser.OnConnection(online => _ = Run());
        timer = new Timer(_ => _ = Run(), null, TimeSpan.Zero, Every);
        watch = new Timer(_ => _ = Look(), null, Watching, Watching);
    }

    /// <summary>Fetches what others log of a visit every few seconds, not only with each round: two who walk one store see where the other was.</summary>
    /// <param name="survey">The visit that is open; null for none.</param>
    public void Watch(string? survey)
    {
        watched = survey;
        _ = Look();
    }

    /// <summary>One entry more waits. It is counted before it is shown as kept: until it is sent nothing says that all is.</summary>
    public void Added()
    {
        added++;
        Unsent++;
        Changed?.Invoke();
        _ = Count();
    }

    public async Task Count()
    {
        int before, unsent;
        do
        {
            // What was added while it was counted may not be in the number.
            before = added;
            unsent = await Browser.UnsentCount() + (await store.Stores()).Count(s => s.Changed || s.Version == 0);
        }
        while (before != added);
        Unsent = unsent;
        Changed?.Invoke();
    }

    /// <summary>Sends what was just kept. It is counted when this returns, so that it is not shown as kept beside a word that all is sent.</summary>
    public async Task Send()
    {
        await Count();
        _ = Run();
    }

    /// <summary>One round: stores out, events out, then what is new in. At most one at a time; asked for while one goes on, which may be past
    /// what is to be sent, there is one more after it.</summary>
    public async Task Run()
    {
        asked = true;
        if (!await one.WaitAsync(0)) return;
        try
        {
            // Until it is counted, nothing to send and nothing known of it look alike.
            await Count();
            while (asked && !wiped)
            {
                asked = false;
                await Round();
            }
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException or JsonException)
        {
            Stand = SyncStand.Offline;
        }
        finally
        {
            one.Release();
            if (!wiped) await Count();
        }
    }

    public async Task<ApiProblem?> SignIn(string name, string passphrase)
    {
        using var answer = await server.Send(HttpMethod.Post, "api/session", JsonSerializer.Serialize(new SignInRequest(name, passphrase), Json.Default.SignInRequest));
        if (!answer.IsSuccessStatusCode) return await Server.Read(answer, Json.Default.ApiProblem) ?? new ApiProblem(null, "The server did not answer as expected.");
        await Run();
        return null;
    }

    /// <summary>True when someone else saved a store's layout too, and both are to be put together.</summary>
    public bool IsClash(string id) => layouts.IsClash(id);

    /// <summary>Keeps a layout that was drawn on this device; see <see cref="LayoutSync.Keep"/>.</summary>
    public Task<StoreRecord?> Keep(string id, string document, string name, (int Version, string Document) from, string known) => layouts.Keep(id, document, name, from, known);

    /// <summary>Gives up the layout that was changed here and takes the server's; false when it can't be had.</summary>
    public Task<bool> TakeServers(string id) => layouts.TakeServers(id);

    /// <summary>The server's layout and the one that this device's was made from, if it was; null when they can't be had.</summary>
    public Task<ServerLayouts?> Layouts(StoreRecord record) => layouts.Both(record);

    public void Dispose()
    {
        timer?.Dispose();
        watch?.Dispose();
        one.Dispose();
    }

    // Beside the rounds and never during one. Without a network, or not signed in, the next round tells.
    private async Task Look()
    {
        if (watched is not { } survey || wiped || Session is null || Stand is SyncStand.Offline or SyncStand.SignIn || !Browser.Online() || !await one.WaitAsync(0)) return;
        try
        {
            if (await store.Survey(survey) is { } here) await FetchEvents(here);
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException or JsonException)
        {
        }
        finally
        {
            one.Release();
            if (asked) _ = Run();
        }
    }

    private async Task Round()
    {
        var began = DateTimeOffset.UtcNow;
        using (var answer = await http.GetAsync("api/session"))
        {
            // Told by our own server, not by whatever answers in its place.
            if (answer.StatusCode == HttpStatusCode.Gone && (await Server.Read(answer, Json.Default.ApiProblem))?.Rule == "lost")
            {
                wiped = true;
                timer?.Dispose();
                await Browser.Wipe("This device was reported lost. What it kept of stores and visits is wiped. Who found it, please give it back to the company it belongs to.");
                return;
            }

            Session = answer.IsSuccessStatusCode ? await Server.Read(answer, Json.Default.ServerSession) : null;
        }

        if (Session is null) return;
        ClockAhead = (began - Session.Time).TotalSeconds;
        if (Session.SignIn && Session.Name is null)
        {
            Stand = SyncStand.SignIn;
            return;
        }

        Trouble = null;
        Stand = SyncStand.Sending;
        foreach (var record in await store.Stores())
        {
            Trouble = await layouts.Send(record) ?? Trouble;
            if (await store.Store(record.Id) is { Version: > 0 } or { Changed: true }) await SendEvents(record.Id, $"api/stores/{record.Id}/findings", texts => JsonSerializer.Serialize(new FindingBatch(texts), Json.Default.FindingBatch));
            if (await store.Store(record.Id) is { Version: > 0 }) await SendPhotos(record.Id, $"stores/{record.Id}");
        }

        foreach (var survey in await store.Surveys())
        {
            await SendEvents(survey.Id, $"api/surveys/{survey.Id}/events", texts => JsonSerializer.Serialize(new EventBatch(survey.Store, survey.Started, texts), Json.Default.EventBatch));
            await SendPhotos(survey.Id, $"surveys/{survey.Id}");
        }

        await Fetch();
        if (Stand == SyncStand.Sending) Stand = Trouble is null ? SyncStand.Sent : SyncStand.Refused;
    }

    private async Task SendEvents(string journal, string path, Func<string[], string> batch)
    {
        while (true)
        {
            var texts = JsonSerializer.Deserialize(await Browser.UnsentOf(journal, BatchSize), Json.Default.StringArray)!;
            if (texts.Length == 0) return;
            using var answer = await server.Send(HttpMethod.Post, path, batch(texts));
            if (!answer.IsSuccessStatusCode)
            {
                if (answer.StatusCode == HttpStatusCode.Unauthorized) Stand = SyncStand.SignIn;
                Trouble = (await Server.Read(answer, Json.Default.ApiProblem))?.Message ?? "The server did not take some entries. They stay here and are tried again.";
                return;
            }

            var result = await Server.Read(answer, Json.Default.AppendResult);
            if (result is null) return;
            await Browser.MarkSent(JsonSerializer.Serialize([.. result.Kept], Json.Default.StringArray), false);
            if (result.Different.Count > 0)
            {
                await Browser.MarkSent(JsonSerializer.Serialize([.. result.Different], Json.Default.StringArray), true);
                Trouble = $"{result.Different.Count} entries are on the server with another content. Both are kept; compare this device's backup file with the server's export.";
            }

            await Count();
        }
    }

    private async Task SendPhotos(string journal, string place)
    {
        var (signIn, trouble) = await PhotoSync.Send(store, journal, place);
        if (signIn) Stand = SyncStand.SignIn;
        Trouble = trouble ?? Trouble;
    }

    private async Task Fetch()
    {
        foreach (var there in await server.Get("api/stores", Json.Default.ServerStoreArray) ?? [])
        {
            await layouts.Fetch(there);
            foreach (var survey in await server.Get($"api/stores/{there.Id}/surveys", Json.Default.ServerSurveyArray) ?? []) await FetchSurvey(survey);
            var service = await store.Cursor(there.Id);
            if (await FetchEvents(there.Id, $"api/stores/{there.Id}/findings", service.Received, place => store.Put(service with { Received = place }))) await SharedWalk.TakeIn(store, there.Id);
        }
    }

    private async Task FetchSurvey(ServerSurvey there)
    {
        var here = await store.Survey(there.Id) ?? new SurveyRecord { Id = there.Id, Store = there.Store, Started = there.Started };
        if (here.Cursor == 0) await store.Put(here);
        await FetchEvents(here);
    }

    private Task<bool> FetchEvents(SurveyRecord here) => FetchEvents(here.Id, $"api/surveys/{here.Id}/events", here.Cursor, place => store.Put(here with { Cursor = place }));

    // True when something new came.
    private async Task<bool> FetchEvents(string journal, string path, long cursor, Func<long, Task> reached)
    {
        var added = 0;
        while (await server.Get($"{path}?after={cursor}", Json.Default.ReceivedEventArray) is { Length: > 0 } events)
        {
            string[] texts = [.. events.Select(e => e.Document).Where(d => JournalEvent.Parse(d)?.Survey == journal)];
            added += await Browser.Receive(journal, JsonSerializer.Serialize(texts, Json.Default.StringArray));
            await reached(cursor = events[^1].Received);
        }

        if (added > 0 && Arrived is { } arrived) await arrived(journal);
        return added > 0;
    }
}
