using System.Globalization;
using System.Text.Json;
using StoreMap.Plans;

namespace StoreMap.Tests.Walking;

/// <summary>A store plan of <c>Cases/plans</c>.</summary>
internal sealed record ReferencePlan(List<PlanPoint> Outer, List<IReadOnlyList<PlanPoint>> Obstacles, List<PlanPoint> Probes)
{
    public static ReferencePlan Load(string name)
    {
        using var json = JsonDocument.Parse(CaseFiles.Text($"plans/{name}_plan.json"));
        var obstacles = json.RootElement.GetProperty("obstacles").EnumerateArray().Select(o => (IReadOnlyList<PlanPoint>)Ring(o)).ToList();
        var probes = CaseFiles.Lines($"plans/{name}_probes.csv").Skip(1).Select(line => line.Split(','))
            .Select(f => new PlanPoint(Number(f[1]), Number(f[2]))).ToList();
        return new(Ring(json.RootElement.GetProperty("outer")), obstacles, probes);
    }

    public static List<(int Id, PlanPoint A, PlanPoint B, double Length)> Pairs(string name)
    {
        using var json = JsonDocument.Parse(CaseFiles.Text($"plans/{name}_pairs.json"));
        var list = json.RootElement.ValueKind == JsonValueKind.Array ? json.RootElement : json.RootElement.GetProperty("pairs");
        return list.EnumerateArray().Select(p => (p.GetProperty("id").GetInt32(), Point(p.GetProperty("a")), Point(p.GetProperty("b")), p.GetProperty("length").GetDouble())).ToList();
    }

    /// <summary>Rows of the upper triangle.</summary>
    public static double[][] Matrix(string name) =>
        CaseFiles.Lines($"plans/{name}_matrix_upper.csv").Where(l => l.Length > 0).Select(l => l.Split(',').Select(Number).ToArray()).ToArray();

    public static double FreeArea(string name)
    {
        using var json = JsonDocument.Parse(CaseFiles.Text($"plans/{name}_info.json"));
        return json.RootElement.GetProperty("free_area_m2").GetDouble();
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static List<PlanPoint> Ring(JsonElement ring) => ring.EnumerateArray().Select(Point).ToList();

    private static PlanPoint Point(JsonElement p) => new(p[0].GetDouble(), p[1].GetDouble());
}
