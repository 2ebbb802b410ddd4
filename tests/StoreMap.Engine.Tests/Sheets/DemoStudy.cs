using StoreMap.History;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Tests.Routing;
using StoreMap.Tests.Rules;

namespace StoreMap.Tests.Sheets;

/// <summary>The demo store's visits, read and studied once for all tests of its sheets.</summary>
internal static class DemoStudy
{
    internal static readonly Lazy<IReadOnlyList<NetSurvey>> Visits = new(() =>
        [.. Directory.EnumerateFiles(SourceTree.PathOf("layouts", "tern-hollow"), "*.readings.csv").Order(StringComparer.Ordinal).Select(Net), Logged()]);

    internal static readonly Lazy<ServiceRecord> Record = new(() =>
    {
        using var stream = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "tern-hollow.service.json"));
        return ServiceRecordFile.Read(stream, null, DemoRoute.Plan).Record;
    });

    internal static readonly Lazy<VisitStudy> Study = new(() => StudyIn(new SheetContext { Company = "Brackenlow Cold Service", Technician = "M. Ostrander" }));

    // The slow parts are done once; a study in other words or on other paper takes them over.
    internal static VisitStudy StudyIn(SheetContext context) => new(DemoRoute.Plan, DemoRoute.Draft.Points, Visits.Value, Record.Value, context)
    {
        Known = Study.IsValueCreated ? Study.Value.Located : [], KnownField = Study.IsValueCreated ? Study.Value.Field : null,
    };

    private static NetSurvey Net(string file)
    {
        using var stream = File.OpenRead(file);
        return NetSurveyBuilder.Build(DemoRoute.Plan, SurveyReader.Read(stream, file, DemoRoute.Plan, DemoRoute.Draft.Points).Survey);
    }

    // The last visit is a monitor's own log with the marks of the walk.
    private static NetSurvey Logged()
    {
        var options = new SurveyReadOptions { Kind = InstrumentKind.LoggingPpm, DelaySeconds = 5, T90Seconds = 5 };
        using var log = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "2026-08-04.log.csv"));
        using var marks = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "2026-08-04.marks.csv"));
        var aligned = LogAligner.Align(
            DemoRoute.Plan, DemoRoute.Draft.Points, LogCsv.Read(log, null, DemoRoute.Plan, options),
            MarksCsv.Read(marks, null, DemoRoute.Plan, DemoRoute.Draft.Points, options).Marks, new LogAlignOptions { DelayKnown = true });
        return NetSurveyBuilder.Build(DemoRoute.Plan, aligned.Survey);
    }
}
