using System.Globalization;
using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.Tests.History;

public class GetisOrdTests
{
    private static readonly double[] Values = [2, 3, 3.2, 5, 8, 7];

    private static readonly PlanPoint[] Places = [new(10, 10), new(20, 10), new(40, 10), new(15, 20), new(30, 20), new(30, 30)];

    [Theory]
    [InlineData(7.5, 4)]
    [InlineData(12.5, 8)]
    public void Star_ReferenceGrid_EqualsTheLibraries(double band, int column)
    {
        var rows = CaseFiles.Lines("stats/gistar_grid.csv").Skip(1)
            .Select(l => l.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray()).ToArray();
        var neighbours = GetisOrd.Within([.. rows.Select(r => new PlanPoint(r[1], r[2]))], band);
        var scores = GetisOrd.Star([.. rows.Select(r => r[3])], neighbours);
        var adjusted = BenjaminiHochberg.Adjust([.. scores.Select(s => s.P)]);
        for (var i = 0; i < rows.Length; i++)
        {
            Assert.Equal((int)rows[i][column], neighbours[i].Count + 1);
            Assert.Equal(rows[i][column + 1], scores[i].Z, 1e-9);
            Assert.Equal(rows[i][column + 2], scores[i].P, 1e-9);
            Assert.Equal(rows[i][column + 3], adjusted[i], 1e-9);
        }
    }

    /// <summary>Expected values of the esda (PySAL) tests.</summary>
    [Fact]
    public void Plain_SixPoints_EqualsEsdasTest()
    {
        double[] expected = [-1.0136729, -0.0436, 1.3156, -0.3141, 1.1537, 1.7783];
        var scores = GetisOrd.Plain(Values, GetisOrd.Within(Places, 15));
        Assert.Equal(expected[0], scores[0].Z, 5e-8);
        for (var i = 1; i < 6; i++) Assert.Equal(expected[i], scores[i].Z, 5e-5);
    }

    [Fact]
    public void Star_SixPoints_EqualsEsdasTest() =>
        Assert.Equal(-1.39727626, GetisOrd.Star(Values, GetisOrd.Within(Places, 15))[0].Z, 5e-9);

    [Fact]
    public void Star_NoVariation_TellsNothing() =>
        Assert.All(GetisOrd.Star([2, 2, 2, 2, 2, 2], GetisOrd.Within(Places, 15)), s => Assert.Equal((0.0, 1.0), (s.Z, s.P)));
}
