using System.Text;
using StoreMap.Fields;
using StoreMap.Raster;
using StoreMap.Sheets;
using StoreMap.Surveys;

namespace StoreMap.App.Shell;

/// <summary>The study of the files that a verb was given, and what only files ask for.</summary>
internal sealed class VisitJob
{
    private static readonly double[] ContourSteps = [1, 2, 5, 10, 20, 50, 100];

    public VisitJob(Session session, string layout, IReadOnlyList<string> surveys, SurveyReadOptions options, string? service, SheetContext context)
        : this(session, Store.Load(layout, session), surveys, options, service, context)
    {
    }

    public VisitJob(Session session, Store store, IReadOnlyList<string> surveys, SurveyReadOptions options, string? service, SheetContext context)
    {
        Store = store;
        var record = service is null ? null : Store.Service(service);
        Study = new VisitStudy(Store.Plan, Store.Draft.Points, Store.Visits(surveys, options), record, context, session.Progress, session.Cancel);
    }

    public Store Store { get; }

    public VisitStudy Study { get; }

    /// <summary>The latest visit.</summary>
    public NetSurvey Visit => Study.Visit;

    public GasField Field => Study.Field;

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
    public PdfInfo Info(string? title = null) => SheetFiles.Info(title ?? "", Study.Context, Visit.Survey.Start);
}
