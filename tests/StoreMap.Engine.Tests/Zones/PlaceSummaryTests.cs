using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

public class PlaceSummaryTests
{
    // A normal density's shortest 90 % interval is the mean ± 1.644854 deviations.
    [Fact]
    public void Shortest_NormalDensity_IsTheCentralInterval()
    {
        var edges = Enumerable.Range(0, 2001).Select(i => i * 0.005).ToArray();
        var mass = new double[2000];
        for (var i = 0; i < mass.Length; i++) mass[i] = NormalLaw.Phi((edges[i + 1] - 4) / 0.5) - NormalLaw.Phi((edges[i] - 4) / 0.5);
        var (from, to) = PlaceSummary.Shortest(edges, mass, 0.9);
        Assert.Equal(4 - (1.644854 * 0.5), from, 0.01);
        Assert.Equal(4 + (1.644854 * 0.5), to, 0.01);
        Assert.Equal(4, PlaceSummary.Median(edges, mass), 1e-6);
    }

    // Exponential density from 0: the shortest interval begins at 0 and ends at L ln 10.
    [Fact]
    public void Shortest_ExponentialDensity_BeginsAtZero()
    {
        var edges = Enumerable.Range(0, 4001).Select(i => i * 0.005).ToArray();
        var mass = Enumerable.Range(0, 4000).Select(i => Math.Exp(-edges[i]) - Math.Exp(-edges[i + 1])).ToArray();
        var (from, to) = PlaceSummary.Shortest(edges, mass, 0.9);
        Assert.Equal(0, from, 1e-9);
        Assert.Equal(Math.Log(10), to, 0.005);
    }

    // Abramowitz and Stegun table 26.1: Phi(1) = 0.841344746, Phi(-2) = 0.022750132; Phi(-10) = 7.619853e-24.
    [Theory]
    [InlineData(1, 0.841344746)]
    [InlineData(-2, 0.022750132)]
    [InlineData(-10, 7.619853e-24)]
    public void Phi_TableValues_Agree(double z, double expected)
    {
        Assert.Equal(1, NormalLaw.Phi(z) / expected, 1e-6);
        Assert.Equal(Math.Log(expected), NormalLaw.LogPhi(z), 1e-4);
    }
}
