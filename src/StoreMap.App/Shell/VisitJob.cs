using System.Text;
using StoreMap.Fields;
using StoreMap.History;
using StoreMap.Raster;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.App.Shell;

/// <summary>The work on one store's visits that map, locate, compare and report share; each part is done once, when first asked for.</summary>
internal sealed class VisitJob
{
    private static readonly double[] ContourSteps = [1, 2, 5, 10, 20, 50, 100];

    private readonly Session session;
    private readonly ServiceRecord? record;
    private readonly Lazy<IReadOnlyList<SurveyVisit>> located;
    private readonly Lazy<GasField> gas;
    private readonly Lazy<Comparison> comparison;

    public VisitJob(Session session, string layout, IReadOnlyList<string> surveys, SurveyReadOptions options, string? service, SheetContext context)
        : this(session, Store.Load(layout, session), surveys, options, service, context)
    {
    }

    public VisitJob(Session session, Store store, IReadOnlyList<string> surveys, SurveyReadOptions options, string? service, SheetContext context)
    {
        (this.session, Store) = (session, store);
        if (service is not null) record = Store.Service(service);
        Visits = Store.Visits(surveys, options);
        located = new(LocateAll);
        gas = new(() => GasFieldBuilder.Build(Store.Plan, Visit, new FieldSettings(), session.Progress("Mapping"), session.Cancel));
        comparison = new(() => SurveyComparison.Compare(Store.Plan, Located, record));
        Context = context with
        {
            Technician = context.Technician.Length > 0 ? context.Technician : string.Join(", ", Visit.Survey.Technicians),
            RestsOn = [.. Visits.Select(v => DateOnly.FromDateTime(v.Survey.Start.DateTime))], WithServiceRecord = record is not null,
        };
    }

    public Store Store { get; }

    /// <summary>All visits, oldest first.</summary>
    public IReadOnlyList<NetSurvey> Visits { get; }

    /// <summary>The latest visit.</summary>
    public NetSurvey Visit => Visits[^1];

    public SheetContext Context { get; }

    public ServiceRecord? Record => record;

    public GasField Field => gas.Value;

    /// <summary>Each visit located with what was known before it, oldest first.</summary>
    public IReadOnlyList<SurveyVisit> Located => located.Value;

    public LocateResult Result => Located[^1].Result;

    public Comparison Comparison => comparison.Value;

    /// <summary>A detail of each leak zone.</summary>
    public IReadOnlyList<Sheet> Details() => LeakZoneSheet.Draw(Store.Plan, Visit, Result, Context);

    /// <summary>The visits side by side.</summary>
    public IReadOnlyList<Sheet> ComparisonSheets() => ComparisonSheet.Draw(Store.Plan, Comparison, Visits, record, Context);

    /// <summary>The customer's pack, numbered through.</summary>
    public IReadOnlyList<Sheet> Report()
    {
        IReadOnlyList<Sheet> Pack(SheetContext context)
        {
            var pages = new List<Sheet>();
            SheetContext Here() => context with { FirstSheet = pages.Count + 1 };
            pages.AddRange(ReportPages.Manager(Store.Plan, Visit, Result, Balances, Here(), record));
            pages.AddRange(HeatMapSheet.Draw(Store.Plan, Visit, Field, Result, Here()));
            pages.AddRange(LeakZoneSheet.Draw(Store.Plan, Visit, Result, Here()));
            if (Visits.Count > 1) pages.AddRange(ComparisonSheet.Draw(Store.Plan, Comparison, Visits, record, Here()));
            pages.AddRange(ReportPages.Cards(Store.Plan, Visit, Result, record, Here()));
            pages.AddRange(ReportPages.Record(Store.Plan, Visit, Result, record, Here(), Balances));
            return pages;
        }

        // Drawn once to count the pages, so that every title block can say "n of N".
        return Pack(Context with { SheetCount = Pack(Context).Count });
    }

    /// <summary>The page for the manager alone.</summary>
    public IReadOnlyList<Sheet> Summary() => ReportPages.Manager(Store.Plan, Visit, Result, Balances, Context, record);

    private IReadOnlyList<MassBalance> Balances => Visits.Count > 1 || record is not null ? Comparison.Balances : [];

    public IReadOnlyList<Sheet> HeatMap() => HeatMapSheet.Draw(Store.Plan, Visit, Field, Result, Context);

    public byte[] GridCsv() => Encoding.UTF8.GetBytes(StoreMap.Fields.GridCsv.Write(Field, Store.Plan.Units));

    /// <summary>Lines and bands at the levels that the trade reads by: the action level, then steps of about two.</summary>
    public byte[] ContourGeoJson()
    {
        double[] levels = [.. ContourSteps.Select(s => s * Field.ActionPpm)];
        using var stream = new MemoryStream();
        StoreMap.Fields.ContourGeoJson.Write(stream, Isolines.Trace(Field, levels), Isobands.Trace(Field, levels), "ppm");
        return stream.ToArray();
    }

    /// <summary>What a PDF says of itself: a title of its own, else that of its first sheet.</summary>
    public PdfInfo Info(string? title = null) => SheetFiles.Info(title ?? "", Context, Visit.Survey.Start);

    private List<SurveyVisit> LocateAll()
    {
        var done = new List<SurveyVisit>();
        foreach (var visit in Visits)
        {
            var day = DateOnly.FromDateTime(visit.Survey.Start.DateTime);
            var priors = LeakPriors.From(Store.Plan, done, record, day);
            var result = LeakLocator.Locate(Store.Plan, visit, priors, new LocateSettings(), session.Progress($"Locating {day:yyyy-MM-dd}"), session.Cancel);
            done.Add(new SurveyVisit(visit, result, Store.Draft.Points));
        }

        return done;
    }
}
