using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Tests.Routing;

/// <summary>An instance of <c>Cases/tsp</c> with the best length and lower bound that other programs found.</summary>
internal sealed record TspCase(double[] Distances, int Count, double Best, double Bound, bool Proved, double OneTree, double Subtour, double Blossom)
{
    public static TspCase Load(string name)
    {
        var distances = name == "USCA50" ? Matrix() : Euclidean(Points(name));
        var row = CaseFiles.Lines("tsp/results.csv").Select(l => l.Split(',')).First(r => r[0] == name);
        return new TspCase(distances, (int)Math.Sqrt(distances.Length), Number(row[2]), Number(row[3]), row[5] == "True", Number(row[6]), Number(row[7]), Number(row[8]));
    }

    public static double[] Euclidean(IReadOnlyList<PlanPoint> points) =>
        [.. points.SelectMany(a => points.Select(b => a.DistanceTo(b)))];

    private static List<PlanPoint> Points(string name) =>
        [.. CaseFiles.Lines($"tsp/{name}.csv").Skip(1).Select(l => l.Split(',')).Select(r => new PlanPoint(Number(r[1]), Number(r[2])))];

    private static double[] Matrix() =>
        [.. CaseFiles.Lines("tsp/USCA50_matrix.csv").SelectMany(l => l.Split(',')).Where(t => double.TryParse(t, CultureInfo.InvariantCulture, out _)).Select(Number)];

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
