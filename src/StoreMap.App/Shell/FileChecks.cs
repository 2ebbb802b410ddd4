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
    public static IReadOnlyList<Problem> All(IReadOnlyList<string> files)
    {
        var problems = new List<Problem>();
        var kinds = files.Select(f => (File: f, Kind: KindOf(f, problems))).ToList();
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
            if (layout is null) problems.Add(NeedsLayout(file, kinds.Exists(k => k.Kind == "layout")));
            else problems.AddRange(Against(file, kind!, layout.Plan, points));
        }

        return problems;
    }

    private static IReadOnlyList<Problem> Against(string file, string kind, Plan plan, IReadOnlyList<ProbePoint> points)
    {
        try
        {
            using var stream = InputFile.Open(file);
            return kind == "service"
                ? ServiceRecordFile.Read(stream, file, plan).Warnings
                : SurveyReader.Read(stream, file, plan, points).Warnings;
        }
        catch (RefusedInputException refused)
        {
            return refused.Problems;
        }
    }

    /// <summary>layout, survey, readings or service; null with a problem when it is none.</summary>
    private static string? KindOf(string file, List<Problem> problems)
    {
        try
        {
            using var stream = InputFile.Open(file);
            var text = new StreamReader(stream, Encoding.UTF8, detectEncodingFromByteOrderMarks: true).ReadToEnd();
            if (!text.TrimStart('\uFEFF', ' ', '\t', '\r', '\n').StartsWith('{')) return "readings";
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

    private static Problem NeedsLayout(string file, bool refused) => new(Severity.Error, file, null, null, null, "needs-layout",
        refused
            ? "Not checked, because the layout it belongs to was refused. Mend the layout first."
            : "Places and ids can only be checked against the store's layout. Name the layout too: storemap check store.layout.json " + Path.GetFileName(file));
}
