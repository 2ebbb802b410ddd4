using System.Globalization;
using System.Text.Json;
using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Benchmarks;

/// <summary>The instances of <c>tests/StoreMap.Engine.Tests/Cases</c> and made stores.</summary>
internal static class Instances
{
    /// <summary>An instance of <c>Cases/tsp</c>: distances, the best known length, and its lower bound.</summary>
    public static (double[] Distances, int Count, double Best, double Bound) Tsp(string name)
    {
        var points = File.ReadAllLines(Case($"tsp/{name}.csv")).Skip(1).Select(l => l.Split(',')).Select(r => new PlanPoint(Number(r[1]), Number(r[2]))).ToArray();
        var row = File.ReadAllLines(Case("tsp/results.csv")).Select(l => l.Split(',')).First(r => r[0] == name);
        return (Euclidean(points), points.Length, Number(row[2]), Number(row[3]));
    }

    /// <summary>A TSPLIB file of type EUC_2D: distances rounded to whole numbers, as its format says.</summary>
    public static (double[] Distances, int Count) TspLib(string path)
    {
        var points = File.ReadLines(path).SkipWhile(l => !l.StartsWith("NODE_COORD_SECTION", StringComparison.Ordinal)).Skip(1)
            .Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries)).TakeWhile(r => r.Length == 3).Select(r => new PlanPoint(Number(r[1]), Number(r[2]))).ToArray();
        return ([.. Euclidean(points).Select(d => Math.Floor(d + 0.5))], points.Length);
    }

    /// <summary>A store plan of <c>Cases/plans</c> with its matrix and the best known tours.</summary>
    public static (Plan Plan, PlanPoint[] Probes, JsonElement Tours) Store(string name)
    {
        using var json = JsonDocument.Parse(File.ReadAllText(Case($"plans/{name}_plan.json")));
        List<PlanPoint> Ring(JsonElement ring) => [.. ring.EnumerateArray().Select(p => new PlanPoint(p[0].GetDouble(), p[1].GetDouble()))];
        var plan = new Plan
        {
            Id = name,
            Name = name,
            Outline = Ring(json.RootElement.GetProperty("outer")),
            Obstacles = [.. json.RootElement.GetProperty("obstacles").EnumerateArray().Select((o, i) => new Obstacle($"G{i}", "shelving", Ring(o)))],
        };
        var probes = File.ReadAllLines(Case($"plans/{name}_probes.csv")).Skip(1).Select(l => l.Split(',')).Select(r => new PlanPoint(Number(r[1]), Number(r[2]))).ToArray();
        using var tours = JsonDocument.Parse(File.ReadAllText(Case($"plans/{name}_tours.json")));
        return (plan, probes, tours.RootElement.Clone());
    }

    /// <summary>Walking distances row by row.</summary>
    public static double[] Distances(DistanceMatrix matrix)
    {
        var all = new double[matrix.Count * matrix.Count];
        for (var i = 0; i < matrix.Count; i++) matrix.Row(i).CopyTo(all.AsSpan(i * matrix.Count));
        return all;
    }

    private static double[] Euclidean(PlanPoint[] points) => [.. points.SelectMany(a => points.Select(b => a.DistanceTo(b)))];

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Case(string path)
    {
        var at = new DirectoryInfo(AppContext.BaseDirectory);
        while (at is not null && !File.Exists(Path.Combine(at.FullName, "StoreMap.sln"))) at = at.Parent;
        return Path.Combine(at?.FullName ?? "", "tests", "StoreMap.Engine.Tests", "Cases", path);
    }
}
