using StoreMap.Fields;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The work on one store's visits that every view of them shares, on the command line, the server and in the browser: each part is
/// done once, when first asked for.</summary>
public sealed class VisitStudy
{
    private readonly Plan plan;
    private readonly IReadOnlyList<ProbePoint> points;
    private readonly Func<string, IProgress<double>?> progress;
    private readonly CancellationToken cancel;
    private readonly Lazy<IReadOnlyList<SurveyVisit>> located;
    private readonly Lazy<GasField> gas;
    private readonly Lazy<VisitAccount?> account;
    private readonly Lazy<Comparison> comparison;

    /// <summary>Takes up the visits.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="points">Its probe points.</param>
    /// <param name="visits">One or more, oldest first.</param>
    /// <param name="record">The service record; null when there is none.</param>
    /// <param name="context">What sheets say of themselves; technicians and what the results rest on are filled in.</param>
    /// <param name="progress">Gives the sink for a named piece of work; null for none.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <exception cref="ArgumentException">There is no visit.</exception>
    public VisitStudy(
        Plan plan, IReadOnlyList<ProbePoint> points, IReadOnlyList<NetSurvey> visits, ServiceRecord? record, SheetContext context,
        Func<string, IProgress<double>?>? progress = null, CancellationToken cancel = default)
    {
        if (visits.Count == 0) throw new ArgumentException("A study needs at least one visit.", nameof(visits));
        (this.plan, this.points, Visits, Record, this.cancel) = (plan, points, visits, record, cancel);
        this.progress = progress ?? (_ => null);
        located = new(LocateAll);
        gas = new(() => KnownField ?? GasFieldBuilder.Build(plan, Visit, FieldSettings, this.progress(Words.For(context.Language)["progress.mapping"]), cancel: cancel));
        account = new(() => VisitAccount.Of(plan, points, Visit.Survey, [.. Journals[DateOnly.FromDateTime(Visit.Survey.Start.DateTime)]]));
        comparison = new(() => SurveyComparison.Compare(plan, Located, record));
        Context = context with
        {
            Technician = context.Technician.Length > 0 ? context.Technician : string.Join(", ", Visit.Survey.Technicians),
            RestsOn = [.. visits.Select(v => DateOnly.FromDateTime(v.Survey.Start.DateTime))], WithServiceRecord = record is not null,
        };
    }

    /// <summary>All visits, oldest first.</summary>
    public IReadOnlyList<NetSurvey> Visits { get; }

    /// <summary>The latest visit.</summary>
    public NetSurvey Visit => Visits[^1];

    /// <summary>The service record; null when there is none.</summary>
    public ServiceRecord? Record { get; }

    /// <summary>What the sheets say of themselves.</summary>
    public SheetContext Context { get; }

    /// <summary>How the heat map is computed.</summary>
    public FieldSettings FieldSettings { get; init; } = new();

    /// <summary>Panels lifted so far, by the day of the visit at which they were.</summary>
    public ILookup<DateOnly, PanelCheck> Checked { get; init; } = Array.Empty<PanelCheck>().ToLookup(_ => default(DateOnly));

    /// <summary>The journals of visits that have one, by the visit's day.</summary>
    public ILookup<DateOnly, JournalState> Journals { get; init; } = Array.Empty<JournalState>().ToLookup(_ => default(DateOnly));

    /// <summary>Visits located before, such as by an earlier study of the same visits, oldest first; they are not located again. May be empty.</summary>
    public IReadOnlyList<SurveyVisit> Known { get; init; } = [];

    /// <summary>The heat map where it was computed before; null to compute it when asked for.</summary>
    public GasField? KnownField { get; init; }

    /// <summary>True once <see cref="Located"/> was asked for.</summary>
    public bool IsLocated => located.IsValueCreated;

    /// <summary>True once <see cref="Field"/> was asked for.</summary>
    public bool IsMapped => gas.IsValueCreated;

    /// <summary>The heat map of the latest visit.</summary>
    public GasField Field => gas.Value;

    /// <summary>Each visit located with what was known before it, oldest first.</summary>
    public IReadOnlyList<SurveyVisit> Located => located.Value;

    /// <summary>The latest visit's answer.</summary>
    public LocateResult Result => Located[^1].Result;

    /// <summary>The visits against one another.</summary>
    public Comparison Comparison => comparison.Value;

    private Comparison? Compared => Visits.Count > 1 || Record is not null ? Comparison : null;

    /// <summary>The heat map of the latest visit.</summary>
    public IReadOnlyList<Sheet> HeatMap() => HeatMapSheet.Draw(plan, Visit, Field, Result, Context);

    /// <summary>A detail of each leak zone.</summary>
    public IReadOnlyList<Sheet> Details() => LeakZoneSheet.Draw(plan, Visit, Result, Context);

    /// <summary>The visits side by side.</summary>
    public IReadOnlyList<Sheet> ComparisonSheets() => ComparisonSheet.Draw(plan, Comparison, Located, Record, Context);

    /// <summary>The page for the manager alone.</summary>
    public IReadOnlyList<Sheet> Summary() => ReportPages.Manager(plan, Visit, Result, Compared, Context, Record, account.Value);

    /// <summary>The customer's pack, numbered through.</summary>
    /// <param name="parts">Which parts; they come in the pack's own order. The comparison needs two visits and is left out of fewer.</param>
    public IReadOnlyList<Sheet> Report(ReportParts parts = ReportParts.All)
    {
        IReadOnlyList<Sheet> Pack(SheetContext context)
        {
            var pages = new List<Sheet>();
            void Add(ReportParts part, Func<SheetContext, IReadOnlyList<Sheet>> draw)
            {
                if (parts.HasFlag(part)) pages.AddRange(draw(context with { FirstSheet = pages.Count + 1 }));
            }

            Add(ReportParts.Manager, c => ReportPages.Manager(plan, Visit, Result, Compared, c, Record, account.Value));
            Add(ReportParts.HeatMap, c => HeatMapSheet.Draw(plan, Visit, Field, Result, c));
            Add(ReportParts.Details, c => LeakZoneSheet.Draw(plan, Visit, Result, c));
            if (Visits.Count > 1) Add(ReportParts.Comparison, c => ComparisonSheet.Draw(plan, Comparison, Located, Record, c));
            Add(ReportParts.Cards, c => ReportPages.Cards(plan, Visit, Result, Record, c));
            Add(ReportParts.Record, c => ReportPages.Record(plan, Visit, Result, Record, c, Compared?.Balances, account.Value));
            return pages;
        }

        // Drawn once to count the pages, so that every title block can say "n of N".
        return Pack(Context with { SheetCount = Pack(Context).Count });
    }

    private List<SurveyVisit> LocateAll()
    {
        var done = new List<SurveyVisit>();
        var words = Words.For(Context.Language);
        foreach (var visit in Visits)
        {
            var day = DateOnly.FromDateTime(visit.Survey.Start.DateTime);
            IReadOnlyList<PanelCheck> lifted = [.. Checked[day]];
            if (done.Count < Known.Count && ReferenceEquals(Known[done.Count].Survey, visit))
            {
                // What leaks behind a panel may have been noted since: it is told, and moves no zone.
                var known = Known[done.Count];
                done.Add(known with { Result = known.Result with { Lifted = lifted } });
                continue;
            }

            // A leak confirmed at this visit is evidence of it; as history of the place it would count twice.
            var found = lifted.Where(c => c.LeakFound).Select(c => PanelFindings.IdOf(c.Panel, day)).ToHashSet(StringComparer.Ordinal);
            var history = Record is null ? null : Record with { Entries = [.. Record.Entries.Where(e => !found.Contains(e.Finding))] };
            var priors = LeakPriors.From(plan, done, history, day);
            var settings = new LocateSettings { Checked = lifted };
            var result = LeakLocator.Locate(plan, visit, priors, settings, progress(words.Say("progress.locating", Days.Of(day))), cancel);
            done.Add(new SurveyVisit(visit, result, points));
        }

        return done;
    }
}

/// <summary>Parts of the customer's pack.</summary>
[Flags]
public enum ReportParts
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>The page for the manager.</summary>
    Manager = 1,

    /// <summary>The heat map.</summary>
    HeatMap = 2,

    /// <summary>A detail of each leak zone.</summary>
    Details = 4,

    /// <summary>The visits side by side.</summary>
    Comparison = 8,

    /// <summary>Repair cards.</summary>
    Cards = 16,

    /// <summary>The record.</summary>
    Record = 32,

    /// <summary>The whole pack.</summary>
    All = Manager | HeatMap | Details | Comparison | Cards | Record,
}
