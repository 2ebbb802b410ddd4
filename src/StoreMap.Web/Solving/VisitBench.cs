using System.Globalization;
using System.Text.Json;
using StoreMap.Fields;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Web.Solving;

/// <summary>One store's visits laid out in the worker: what was worked out stays until what it rests on changes, so that a panel confirmed
/// costs one more locating and not the whole map.</summary>
internal sealed class VisitBench
{
    private const int MostKept = 40;

    private readonly string layout;
    private readonly IReadOnlyList<ProbePoint> points;
    private readonly Func<string, IProgress<double>?> progress;
    private readonly Dictionary<string, Replayed> replayed = [];
    private readonly Dictionary<string, JournalEvent?> entries = [];
    private readonly Dictionary<string, NetSurvey> nets = [];
    private readonly Dictionary<(NetSurvey Net, FieldSettings Settings), GasField> fields = new();
    private readonly Dictionary<(NetSurvey Net, FieldSettings Settings), FieldSampler> samplers = new();
    private readonly Dictionary<double, FieldGround> grounds = [];
    private IReadOnlyList<SurveyVisit> located = [];
    private List<string> locatedChecks = [];

    private VisitBench(string layout, Func<string, IProgress<double>?> progress)
    {
        (this.layout, this.progress) = (layout, progress);
        Shown = Plan = LayoutDocument.Reread(layout).Plan;
        points = ProbePlanner.Draft(Plan, new Protocol()).Points;
    }

    public Plan Plan { get; }

    /// <summary>The same with the unit in which lengths are shown. For words and the report: files, rules and weights on screens go by <see cref="Plan"/>'s.</summary>
    public Plan Shown { get; private set; }

    /// <summary>Panels lifted at the visits laid out last, in time order.</summary>
    public IReadOnlyList<PanelLook> Looked { get; private set; } = [];

    /// <summary>The bench for a layout: the same one as long as it stays the same.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="lengths">The unit in which lengths are shown; null for the plan's.</param>
    /// <param name="last">The last bench.</param>
    /// <param name="progress">Gives the sink for a named piece of work.</param>
    public static VisitBench For(string layout, LengthUnit? lengths, VisitBench? last, Func<string, IProgress<double>?> progress)
    {
        var bench = last?.layout == layout ? last : new VisitBench(layout, progress);
        bench.ShowIn(lengths ?? bench.Plan.Units);
        return bench;
    }

    /// <summary>Lays out the visits.</summary>
    /// <param name="text">A <see cref="DeskInput"/>.</param>
    /// <param name="settings">How the heat map is computed.</param>
    /// <param name="context">What sheets say of themselves.</param>
    /// <returns>The study; null when no visit has a reading.</returns>
    public VisitStudy? Study(string text, FieldSettings settings, SheetContext context) =>
        Lay(text, false) is { Visits.Count: > 0 } laid ? Study(laid, laid.Visits.Count, settings, context) : null;

    /// <summary>As <see cref="Study(string, FieldSettings, SheetContext)"/>, with every visit located: by what this device kept of it, or anew,
    /// and kept before the next one begins, so that what is stopped half-way is half done.</summary>
    public async Task<VisitStudy?> StudyLocated(string text, FieldSettings settings, SheetContext context)
    {
        if (Lay(text, true) is not { Visits.Count: > 0 } laid) return null;
        for (var i = located.Count; i < laid.Visits.Count; i++)
        {
            var question = KeptVisits.Question(layout, Shown.Units, laid.Visits.Take(i + 1).Select(v => (v.Readings, v.Checks)));
            if (await KeptVisits.Recall(question) is { } kept)
            {
                located = [.. located, new SurveyVisit(laid.Visits[i].Net, kept, points)];
                continue;
            }

            located = Study(laid, i + 1, settings, context).Located;
            await KeptVisits.Keep(question, located[i].Result);
        }

        return Study(laid, laid.Visits.Count, settings, context);
    }

    /// <summary>The service record with what was found at the visits.</summary>
    public ServiceState Service(DeskInput input) => ServiceJournal.Replay(
        Plan, input.Service.Select(JournalEvent.Parse).OfType<JournalEvent>(), input.Visits.SelectMany(v => FoundPanel.Of(v.Survey, StateOf(v))));

    /// <summary>What a visit's events come to.</summary>
    public JournalState StateOf(PackedVisit visit) => Replay(visit).State;

    /// <summary>Takes over the heat map that a study worked out.</summary>
    public void Keep(VisitStudy study)
    {
        if (study.IsMapped) fields[(study.Visit, study.FieldSettings)] = study.Field;
    }

    /// <summary>The heat map of one visit.</summary>
    public GasField FieldOf(NetSurvey net, FieldSettings settings)
    {
        if (!fields.TryGetValue((net, settings), out var field))
        {
            if (!grounds.TryGetValue(settings.CellMetres, out var ground)) grounds[settings.CellMetres] = ground = FieldGround.Of(Plan, settings.CellMetres);
            fields[(net, settings)] = field = GasFieldBuilder.Build(Plan, net, settings, progress("Mapping"), ground: ground);
        }

        return field;
    }

    /// <summary>Reads the heat map of one visit between its cells.</summary>
    public FieldSampler SamplerOf(NetSurvey net, FieldSettings settings)
    {
        if (!samplers.TryGetValue((net, settings), out var sampler)) samplers[(net, settings)] = sampler = new FieldSampler(Plan, FieldOf(net, settings));
        return sampler;
    }

    // The reasons of leak zones are told in it.
    private void ShowIn(LengthUnit unit)
    {
        if (Shown.Units == unit) return;
        Shown = Plan.ShownIn(unit);
        (located, locatedChecks) = ([], []);
    }

    // The first visits of those laid out.
    private VisitStudy Study(LaidVisits laid, int count, FieldSettings settings, SheetContext context)
    {
        var visits = laid.Visits.Take(count).ToList();
        return new VisitStudy(Shown, points, [.. visits.Select(v => v.Net)], laid.Record, context, progress)
        {
            FieldSettings = settings, Known = [.. located.TakeWhile((v, i) => i < visits.Count && ReferenceEquals(v.Survey, visits[i].Net))], KnownField = fields.GetValueOrDefault((visits[^1].Net, settings)),
            Checked = visits.SelectMany(v => v.Looks.Select(l => (Day: DateOnly.FromDateTime(v.Net.Survey.Start.DateTime), Look: l))).ToLookup(x => x.Day, x => PanelCheck.Of(x.Look)),
            Journals = visits.SelectMany(v => v.Journals.Select(j => (Day: DateOnly.FromDateTime(v.Net.Survey.Start.DateTime), Journal: j))).ToLookup(x => x.Day, x => x.Journal),
        };
    }

    // Only leak zones rest on the service record, so that it is not put together for a map alone.
    private LaidVisits Lay(string text, bool locates)
    {
        var input = JsonSerializer.Deserialize(text, DeskJson.Plain.DeskInput)!;
        var service = locates ? Service(input).File : null;
        var read = input.Visits.Select(Replay).Where(r => r.Survey.Readings.Count > 0).ToList();
        var visits = new List<LaidVisit>();
        foreach (var survey in StoreMap.Surveys.Visits.ByDate([.. read.Select(r => r.Survey)]))
        {
            var parts = read.Where(r => r.Survey.Start.Date == survey.Start.Date).ToList();
            var key = string.Concat(parts.Select(p => p.Readings));
            if (!nets.TryGetValue(key, out var net)) nets[key] = net = NetSurveyBuilder.Build(Plan, survey);
            List<PanelLook> looks = [.. parts.SelectMany(p => p.State.Panels).OrderBy(p => p.Time)];
            visits.Add(new LaidVisit(net, key, [.. parts.Select(p => p.State)], looks, string.Join(' ', looks.Select(l => $"{l.Panel}:{l.Leak}")) + (service is null ? "" : Until(service, net))));
        }

        Looked = visits.Count == 0 ? [] : [.. visits[^1].Looks];
        if (service is null) return new LaidVisits(visits, null);
        located = [.. located.TakeWhile((v, i) => i < visits.Count && ReferenceEquals(v.Survey, visits[i].Net) && locatedChecks[i] == visits[i].Checks)];
        locatedChecks = [.. visits.Select(v => v.Checks)];
        return new LaidVisits(visits, service.Record.Entries.Count + service.Record.Movements.Count == 0 ? null : service.Record);
    }

    private static string Until(ServiceRecordFile service, NetSurvey visit)
    {
        var day = DateOnly.FromDateTime(visit.Survey.Start.DateTime);
        return string.Concat(service.Record.Entries.Zip(service.Root["entries"]!.AsArray()).Where(e => e.First.Date <= day).Select(e => e.Second!.ToJsonString()));
    }

    private Replayed Replay(PackedVisit visit)
    {
        // The same entries in another order are the same visit.
        var key = string.Join('\n', visit.Events.Order(StringComparer.Ordinal).Prepend(visit.Started.ToString("O", CultureInfo.InvariantCulture)));
        // A visit being logged is another one after each entry: what it was before is let go now and then.
        if (replayed.Count > MostKept) Forget();
        if (replayed.TryGetValue(key, out var known)) return known;
        var state = JournalReplay.Replay(Plan.Id, Plan.Units, visit.Started, visit.Events.Select(Entry).OfType<JournalEvent>());
        return replayed[key] = new Replayed(state, JournalReplay.Read(state, Plan, points).Survey, state.FileText);
    }

    // A visit with one entry more has all its others from before.
    private JournalEvent? Entry(string text)
    {
        if (!entries.TryGetValue(text, out var known)) entries[text] = known = JournalEvent.Parse(text);
        return known;
    }

    private void Forget()
    {
        replayed.Clear();
        entries.Clear();
        nets.Clear();
        fields.Clear();
        samplers.Clear();
    }

    // Checks: what a visit's leak zones rest on beside its readings and the visits before: panels lifted at it, and entries of the record until its day.
    private sealed record LaidVisit(NetSurvey Net, string Readings, IReadOnlyList<JournalState> Journals, IReadOnlyList<PanelLook> Looks, string Checks);

    private sealed record LaidVisits(IReadOnlyList<LaidVisit> Visits, ServiceRecord? Record);

    // Readings: the survey's text, which a panel lifted does not change.
    private sealed record Replayed(JournalState State, Survey Survey, string Readings);
}
