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

    public VisitJob(Session session, string layout, IReadOnlyList<string> surveys, SurveyReadOptions options, string? service = null)
    {
        this.session = session;
        Store = Store.Load(layout, session);
        if (service is not null) record = Store.Service(service);
        Visits = Store.Visits(surveys, options);
        located = new(LocateAll);
        gas = new(() => GasFieldBuilder.Build(Store.Plan, Visit, new FieldSettings(), session.Progress("Mapping"), session.Cancel));
        comparison = new(() => SurveyComparison.Compare(Store.Plan, Located, record));
        Context = new SheetContext { Technician = string.Join(", ", Visit.Survey.Technicians) };
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

    public IReadOnlyList<Sheet> Details() => Visits.Count == 0 ? [] : [];

    public IReadOnlyList<Sheet> ComparisonSheets() => Visits.Count == 0 ? [] : [];

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

    public PdfInfo Info(string what) => SheetFiles.Info($"{what}, {Store.Plan.Name}", Context.Technician, Visit.Survey.Start);

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
