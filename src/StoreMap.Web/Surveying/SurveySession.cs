using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Web.Solving;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Surveying;

/// <summary>The survey at hand: its points, where the technician stands, and what was noted so far.</summary>
public sealed partial class SurveySession
{
    private readonly LocalStore store;
    private readonly SurveyJournal journal;
    private readonly LiveAnswer live;
    private readonly TimeProvider clock;
    private readonly Dictionary<string, string> shown = [];
    private readonly List<(string Point, DateTimeOffset From)> stood = [];
    private IReadOnlyList<ProbePoint> draft = [];
    private bool isTakenUp;

    public SurveySession(LocalStore store, Sync sync, LiveAnswer live, TimeProvider clock)
    {
        (this.store, this.live, this.clock) = (store, live, clock);
        journal = new SurveyJournal(store, sync, clock);
        sync.Arrived += survey => survey == Record?.Id ? Reload() : Task.CompletedTask;
    }

    public event Action? Changed;

    public StoreRecord Store { get; private set; } = null!;

    public SurveyRecord Record { get; private set; } = null!;

    public Plan Plan { get; private set; } = null!;

    /// <summary>The same with the unit in which this device shows lengths.</summary>
    public Plan ShownPlan { get; private set; } = null!;

    public IReadOnlyList<ProbePoint> Points { get; private set; } = [];

    public JournalState State { get; private set; } = null!;

    public ProbePoint? Current { get; private set; }

    /// <summary>True when the order was gone through and one was led back to a point that was passed over.</summary>
    public bool CameBack { get; private set; }

    /// <summary>Since when the probe is held at the current point.</summary>
    public DateTimeOffset Since { get; private set; }

    public Instrument Instrument { get; private set; } = new() { Id = "monitor" };

    /// <summary>The air at the current point's fixture, by what was stopped there and not put back.</summary>
    public AirState Air => State.Open.LastOrDefault(i => i.What is "fans-off" or "defrost" && i.Fixture is { } f && f == Current?.Fixture)?.What switch
    {
        "fans-off" => AirState.FansOff,
        "defrost" => AirState.Defrost,
        _ => AirState.FansOn,
    };

    /// <summary>What is typed at a point and not kept yet, while the log is not on the screen.</summary>
    internal (string Point, string Text, string Note)? Typed { get; set; }

    public ProbeHeight Height { get; set; } = ProbeHeight.Mid;

    /// <summary>What was last kept, for the line that says so.</summary>
    public string LastSaved { get; private set; } = "";

    /// <summary>What the line tells of, where it can be taken back at once.</summary>
    public KeptEntries? LastKept { get; private set; }

    /// <summary>All entries, also those taken back.</summary>
    public IReadOnlyList<JournalEvent> Entries => journal.Events;

    /// <summary>Milliseconds from the key to the reading being on the disk.</summary>
    public double SaveMilliseconds { get; private set; }

    /// <summary>Why work stopped on this device; null when it was answered and goes on.</summary>
    public OpenStop? Stop { get; private set; }

    public int Done => Points.Count(p => shown.ContainsKey(p.Id) || IsWalked(p));

    /// <summary>Walks marked on this device for the monitor's log.</summary>
    public IReadOnlyList<MarkedWalk> Walks { get; private set; } = [];

    /// <summary>Line-ups that were walked on any device; true where the log was read in.</summary>
    public IReadOnlyDictionary<string, bool> Walked { get; private set; } = new Dictionary<string, bool>();

    /// <summary>What is known so far; null before the first answer.</summary>
    public Answer? Answer => live.Answer;

    /// <summary>What the monitor showed at a point; null when not read.</summary>
    public string? Shown(string point) => shown.GetValueOrDefault(point);

    /// <summary>True once the points are in walking order, or can't be brought into it: they are not put in another order after that.</summary>
    public bool IsOrdered { get; private set; }

    /// <summary>What is being typed from paper.</summary>
    public PaperRows Paper { get; private set; } = new();

    /// <summary>True when a monitor's log has it: its front was walked from mark to mark.</summary>
    public bool IsWalked(ProbePoint point) => point is { Pass: ProbePass.Front, OnBack: false, Fixture: { } fixture } && Walked.ContainsKey(fixture);

    /// <summary>Readings of this device that a new one takes the place of.</summary>
    internal IReadOnlyList<JournalEvent> Like(JsonObject reading) => journal.Like(reading, Device);

    /// <summary>Says what was done.</summary>
    /// <param name="line">In words.</param>
    /// <param name="kept">What can be taken back at once; null for nothing.</param>
    internal void Tell(string line, KeptEntries? kept = null)
    {
        (LastSaved, LastKept) = (line, kept);
        Changed?.Invoke();
    }

    public bool IsSkipped(string point) => State.Skipped.Any(s => s.Point == point);

    /// <summary>True once a survey was opened, or taken up to show what it left off.</summary>
    public bool IsOpen => State is not null;

    /// <summary>Takes up the visit that was open on this device last, or one before it, when something is still off there or somebody inside, so
    /// that it is shown before the visit is opened again.</summary>
    public async Task TakeUp()
    {
        var done = new List<string>();
        foreach (var visit in store.Visits)
        {
            if (Record is not null) return;
            if (await Find(visit) is not var (record, of)) continue;
            var state = JournalReplay.Replay(of.Id, LengthUnit.Metre, record.Started, await store.Events(record.Id));
            if (Record is not null) return;
            if (!state.Open.Any() && state.Inside.Count == 0)
            {
                done.Add(visit);
                continue;
            }

            isTakenUp = true;
            journal.Begin(record.Id);
            Set(record, of);
            await Reload();
            break;
        }

        await store.ForgetVisits(done);
    }

    /// <summary>Opens a survey; false when this device has no such survey.</summary>
    public async Task<bool> Open(string survey)
    {
        if (await Find(survey) is not var (record, of)) return false;
        var (other, fresh) = (Record?.Id != record.Id, Record?.Id != record.Id || isTakenUp);
        Set(record, of);
        if (fresh)
        {
            live.Forget();
            stood.Clear();
            Paper = new PaperRows();
            if (other) journal.Begin(record.Id);
            (Current, CameBack, LastKept, LastSaved, Typed, isTakenUp) = (null, false, null, "", null, false);
        }

        await Reload();
        await store.SetVisit(record.Id);
        if (live.IsDropped) Ask();
        if (fresh && Stop is { } stop) LastKept = new KeptEntries(stop.Entries, "the number at which work stopped", stop.At);
        if (fresh || Current is null) GoOnFrom(LastNoted());
        if (Current is null) GoTo(Points.FirstOrDefault());
        IsOrdered = Store.Order is not null;
        if (!IsOrdered) PlanRoute();
        return true;
    }

    private async Task<(SurveyRecord Survey, StoreRecord Store)?> Find(string survey) =>
        await store.Survey(survey) is { } record && await store.Store(record.Store) is { } of ? (record, of) : null;

    private void Set(SurveyRecord record, StoreRecord of)
    {
        (Record, Store) = (record, of);
        Plan = LayoutDocument.Reread(of.Document).Plan;
        ShownPlan = store.Shown(Plan);
        draft = ProbePlanner.Draft(Plan, new Protocol()).Points;
    }

    // One goes on where one was, also on a device that was off meanwhile.
    private ProbePoint? LastNoted() => State.Events.Where(e => e.Device == Device && e.Kind is JournalKinds.Reading or JournalKinds.Skip)
        .Select(e => Points.FirstOrDefault(p => p.Id == (string?)e.Body["point"])).OfType<ProbePoint>().LastOrDefault();

    // Where the probe is stays.
    private async Task Reload()
    {
        if (!await journal.TakeIn()) return;
        Replay();
        if (!isTakenUp) Ask();
    }

    public void GoTo(ProbePoint? point)
    {
        (Current, CameBack) = (point, false);
        if (point is null) return;
        Since = clock.GetUtcNow();
        stood.Add((point.Id, Since));
        if (point.Fixture is not null) Height = point.Height;
        Changed?.Invoke();
    }

    /// <summary>Goes to the next point that is neither read, walked nor skipped; after the last in order to the first that was passed over.</summary>
    internal void GoOnFrom(ProbePoint? point)
    {
        var (next, isBack) = (NextOpen(point), CameBack);
        GoTo(next);
        CameBack = next is not null && IsLeft(next) && (isBack || PointOrder.IndexOf(Points, next.Id) < PointOrder.IndexOf(Points, point?.Id));
        if (CameBack) Changed?.Invoke();
    }

    public void Step(int by)
    {
        if (Points.Count == 0) return;
        var at = PointOrder.IndexOf(Points, Current?.Id);
        if (at + by >= Points.Count && Points.Any(IsLeft))
        {
            GoOnFrom(Current);
            return;
        }

        GoTo(Points[Math.Clamp(at + by, 0, Points.Count - 1)]);
    }

    /// <summary>The monitor reacts now: the gas was where the tip was one delay ago.</summary>
    public ProbePoint? HitNow()
    {
        var then = clock.GetUtcNow().AddSeconds(-Instrument.DelaySeconds);
        var place = stood.LastOrDefault(s => s.From <= then);
        var point = Points.FirstOrDefault(p => p.Id == (place.Point ?? Current?.Id));
        if (point is not null) GoTo(point);
        return point;
    }

    public string? Gas(ProbePoint? point) => Plan.FindFixture(point?.Fixture) is { } fixture ? Plan.RefrigerantAt(fixture, point?.Along ?? 0) : null;

    /// <summary>The readings at which work stops there.</summary>
    public StopWork Limits(ProbePoint point) => StopWork.At(Plan, point.Fixture, point.Along ?? 0);

    /// <summary>Down to which number the monitor must come before what it shows counts again; null when it holds no gas from an over-range reading.</summary>
    public double? Clearing => JournalClearing.Of(State, Device, Gas(Current), Instrument);

    /// <summary>This device, as the journal calls it.</summary>
    public string Device => store.Device;

    /// <summary>An id for what this device adds, unique for ever.</summary>
    internal string NewId() => store.NewEventId();

    public async Task<(string Layout, string Lengths, string Survey)> Input() => (Store.Document, store.Lengths, EngineWork.Pack(Record.Started, await store.EventTexts(Record.Id)));

    private void Replay()
    {
        State = JournalReplay.Replay(Plan.Id, Plan.Units, Record.Started, journal.Events);
        shown.Clear();
        foreach (var e in State.Events.Where(e => e.Kind == JournalKinds.Reading))
            if ((string?)e.Body["point"] is { } point) shown[point] = (string?)e.Body["ppm"] ?? "";
        if (State.Events.LastOrDefault(e => e.Kind == JournalKinds.Start)?.Body["instrument"] is JsonObject i)
            Instrument = new Instrument { Id = (string?)i["id"] ?? "monitor", DelaySeconds = (double?)i["delay"] ?? 5, T90Seconds = (double?)i["t90"] ?? 5, DetectionPpm = (double?)i["detectionLimit"] ?? 1, RangePpm = (double?)i["range"] ?? SurveyDefaults.RangePpm };
        Walks = JournalMarks.Walks(State, store.Device);
        Walked = JournalMarks.Walked(State);
        Points = PointOrder.Of(Plan, draft, Store.Order, State);
        Stop = OpenStop.Of(this);
        Changed?.Invoke();
    }

    private void Ask() => live.Ask(Input);

    private async void PlanRoute()
    {
        try
        {
            var order = JsonNode.Parse(await EngineRoom.FloorWhileSeen("EngineWork.Route", Store.Document))!.AsArray().Select(n => (string)n!).ToList();
            Store = await store.Change(Store.Id, now => now with { Order = order }) ?? Store;
            Replay();
        }
        catch (System.Runtime.InteropServices.JavaScript.JSException e) when (EngineRoom.IsStopped(e))
        {
            // Planned when the visit is opened again.
            return;
        }
        catch (System.Runtime.InteropServices.JavaScript.JSException)
        {
            // The points stay in the order of the fixtures.
        }

        IsOrdered = true;
        Changed?.Invoke();
    }

    private bool IsLeft(ProbePoint point) => !shown.ContainsKey(point.Id) && !IsSkipped(point.Id) && !IsWalked(point);

    private ProbePoint? NextOpen(ProbePoint? after) => PointOrder.Next(Points, after?.Id, IsLeft) ?? after;
}
