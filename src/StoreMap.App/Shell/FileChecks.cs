using System.Text;
using System.Text.Json;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;

namespace StoreMap.App.Shell;

/// <summary>Checks any of StoreMap's files by what it says it is; a layout among them is what the others are held against.</summary>
internal static class FileChecks
{
    private static readonly string[] PlaceColumns = ["point", "fixture", "x", "y"];

    /// <summary>Checks files.</summary>
    /// <param name="files">Their paths.</param>
    /// <param name="options">Column names and monitor of the CSVs.</param>
    public static IReadOnlyList<Problem> All(IReadOnlyList<string> files, SurveyReadOptions options)
    {
        var problems = new List<Problem>();
        var kinds = files.Select(f => (File: f, Kind: KindOf(f, options, problems))).ToList();
        LayoutDocument? layout = null;
        foreach (var (file, _) in kinds.Where(k => k.Kind == "layout"))
        {
            using var stream = InputFile.Open(file);
            problems.AddRange(LayoutDocument.TryRead(stream, file, out var document));
            layout ??= document;
        }

        // Only other files need the probe points; on a big store they take longer than the check itself.
        var points = layout is null || kinds.TrueForAll(k => k.Kind is null or "layout") ? [] : ProbePlanner.Draft(layout.Plan, new Protocol()).Points;
        foreach (var (file, kind) in kinds.Where(k => k.Kind is not null and not "layout"))
        {
            if (layout is null && kind != "responses") problems.Add(NeedsLayout(file, kinds.Exists(k => k.Kind == "layout")));
            else problems.AddRange(Against(file, kind!, layout?.Plan, points, options));
        }

        return problems;
    }

    private static IReadOnlyList<Problem> Against(string file, string kind, Plan? plan, IReadOnlyList<ProbePoint> points, SurveyReadOptions options)
    {
        try
        {
            using var stream = InputFile.Open(file);
            switch (kind)
            {
                case "responses":
                    ResponsesCsv.Read(stream, file);
                    return [];
                case "service":
                    return ServiceRecordFile.Read(stream, file, plan!).Warnings;
                case "log":
                    return LogCsv.Read(stream, file, plan!, options).Warnings;
                case "marks":
                    return [.. MarksCsv.Read(stream, file, plan!, points, options).Warnings, CheckedAsMarks(file)];
                default:
                    return SurveyReader.Read(stream, file, plan!, points, options).Warnings;
            }
        }
        catch (RefusedInputException refused)
        {
            return refused.Problems;
        }
    }

    // What a CSV is, by its header: readings have places, a log has none, marks have no ppm.
    private static string CsvKind(string text, SurveyReadOptions options)
    {
        var head = text.AsSpan().TrimStart("\uFEFF \t\r\n");
        var end = head.IndexOfAny('\r', '\n');
        var columns = (end < 0 ? head : head[..end]).ToString().Split([',', ';', '\t']).Select(c => c.Trim().Trim('"').ToLowerInvariant()).ToHashSet();
        foreach (var (ours, theirs) in options.Columns)
        {
            if (columns.Remove(theirs.ToLowerInvariant())) columns.Add(ours.ToLowerInvariant());
        }

        if (columns.IsSupersetOf(["set", "actual", "factor"])) return "responses";
        if (!columns.Contains("ppm")) return columns.Contains("event") || (columns.Contains("time") && columns.Overlaps(PlaceColumns)) ? "marks" : "readings";
        return columns.Contains("time") && !columns.Overlaps(PlaceColumns) ? "log" : "readings";
    }

    /// <summary>layout, survey, service, or what a CSV is; null with a problem when it is none.</summary>
    private static string? KindOf(string file, SurveyReadOptions options, List<Problem> problems)
    {
        try
        {
            using var stream = InputFile.Open(file);
            var text = new StreamReader(stream, Encoding.UTF8, detectEncodingFromByteOrderMarks: true).ReadToEnd();
            if (!text.TrimStart('\uFEFF', ' ', '\t', '\r', '\n').StartsWith('{'))
            {
                if (Path.GetExtension(file).ToLowerInvariant() is not (".dxf" or ".svg")) return CsvKind(text, options);
                problems.Add(new Problem(Severity.Error, file, null, null, null, "drawing",
                    "A plan drawing is not checked but read: storemap import " + Path.GetFileName(file) + " --out store.layout.json"));
                return null;
            }

            foreach (var kind in new[] { "layout", "survey", "service" })
            {
                if (Format(text)?.StartsWith($"storemap-{kind}/", StringComparison.Ordinal) == true || (Format(text) is null && file.EndsWith($".{kind}.json", StringComparison.OrdinalIgnoreCase))) return kind;
            }

            problems.Add(new Problem(Severity.Error, file, null, "format", Format(text), "known-format",
                "The file does not say what it is. Its field \"format\" must be storemap-layout/1, storemap-survey/1 or storemap-service/1."));
        }
        catch (RefusedInputException refused)
        {
            problems.AddRange(refused.Problems);
        }

        return null;
    }

    private static string? Format(string text)
    {
        try
        {
            using var json = JsonDocument.Parse(text, new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true });
            return json.RootElement.TryGetProperty("format", out var format) && format.ValueKind == JsonValueKind.String ? format.GetString() : null;
        }
        catch (JsonException)
        {
            // Its own reader says where it is broken.
            return null;
        }
    }

    private static Problem CheckedAsMarks(string file) => new(Severity.Warning, file, "row 1", "ppm", null, "checked-as-marks",
        "The file has no column ppm: it was checked as the marks of a log. If it holds readings, name the column: --columns ppm=name.");

    private static Problem NeedsLayout(string file, bool refused) => new(Severity.Error, file, null, null, null, "needs-layout",
        refused
            ? "Not checked, because the layout it belongs to was refused. Mend the layout first."
            : "Places and ids can only be checked against the store's layout. Name the layout too: storemap check store.layout.json " + Path.GetFileName(file));
}
