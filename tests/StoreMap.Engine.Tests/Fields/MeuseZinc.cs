using System.Globalization;
using StoreMap.Fields;
using StoreMap.Plans;

namespace StoreMap.Tests.Fields;

/// <summary>The Meuse zinc data and gstat's answers on them (<c>Cases/kriging</c>).</summary>
internal static class MeuseZinc
{
    public static VariogramModel Model { get; } = new(VariogramShape.Spherical, 0.05, 0.59, 897);

    public static SamplePoint[] LogZinc { get; } = [.. Table("meuse_zinc_points").Select(r => new SamplePoint(new PlanPoint(r[1], r[2]), r[4]))];

    public static SamplePoint[] Zinc { get; } = [.. Table("meuse_zinc_points").Select(r => new SamplePoint(new PlanPoint(r[1], r[2]), r[3]))];

    public static List<double[]> Table(string name) =>
        [.. CaseFiles.Lines($"kriging/{name}.csv").Skip(1).Select(l => l.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray())];

    public static void Close(double expected, double actual, double relative) =>
        Assert.True(Math.Abs(expected - actual) <= relative * Math.Abs(expected), $"expected {expected:R}, got {actual:R}");
}
