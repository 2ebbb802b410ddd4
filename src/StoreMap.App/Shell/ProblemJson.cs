using System.Text.Json.Nodes;

namespace StoreMap.App.Shell;

/// <summary>Problems as the machine-readable document has them.</summary>
internal static class ProblemJson
{
    public static JsonArray Array(IEnumerable<Problem> problems) => new([.. problems.Select(One)]);

    private static JsonObject One(Problem p) => new()
    {
        ["severity"] = p.Severity == Severity.Error ? "error" : "warning",
        ["file"] = p.File,
        ["element"] = p.Element,
        ["field"] = p.Field,
        ["value"] = p.Value,
        ["rule"] = p.Rule,
        ["message"] = p.Message,
    };
}
