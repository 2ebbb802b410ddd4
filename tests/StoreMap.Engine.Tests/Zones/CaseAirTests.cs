using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>The steady air of a line-up against the closed solution of one-dimensional advection and dispersion with loss,
/// c = G'/(A S) exp(-|x - x0| / L), S = sqrt(u² + 4Dk), L_up = 2D/(S + u), L_down = 2D/(S - u) (standard result, e.g. Fischer et al.,
/// Mixing in Inland and Coastal Waters, 1979). Check values: D 0.02, k 0.01, u 0: L 1.41421, peak 35.3553; u 0.02: 0.73205, 2.73205, 28.8675.</summary>
public class CaseAirTests
{
    // The cells are 0.1 m wide: the discrete solution differs from the closed one by order (0.1 / L)².
    private const double GridShare = 0.01;

    internal static LineUpAxis Axis(double length, params double[] sections)
    {
        var parts = new List<Section>();
        var at = 0.0;
        foreach (var section in sections.Length == 0 ? [length] : sections)
        {
            parts.Add(new Section(parts.Count + 1, at, at + section, 1, null));
            at += section;
        }

        return new LineUpAxis(
            [
                new Fixture
                {
                    Id = "C1", Tag = "C1", Kind = FixtureKind.OpenCase, Outline = [new(0, 0), new(length, 0), new(length, 1), new(0, 1)],
                    Front = new PlanLine([new(0, 0), new(length, 0)]), Sections = parts,
                },
            ],
            [false]);
    }

    [Theory]
    [InlineData(0, 1.41421, 1.41421, 35.3553)]
    [InlineData(0.02, 0.73205, 2.73205, 28.8675)]
    public void Response_LongOpenLineUp_IsTheAnalyticProfile(double u, double up, double down, double peak)
    {
        const double d = 0.02, k = 0.01;
        var reach = Math.Sqrt(d / k);
        var drift = u / (2 * Math.Sqrt(d * k));
        var axis = Axis(60);
        var response = new double[axis.Count];
        var source = axis.CellAt(30);
        foreach (var offset in new[] { -3.0, -1, -0.2, 0, 0.2, 1, 3 })
        {
            Shown.Moving(axis, new AirSetting(reach, drift, 0, 1), 30.05 + offset, response);
            // Strength 1 has peak 1 in calm air, where G'/A gives 35.3553.
            var got = response[source] * 35.3553;
            var wanted = peak * Math.Exp(-Math.Abs(offset) / (offset < 0 ? up : down));
            Assert.InRange(got / wanted, 1 - GridShare, 1 + GridShare);
        }
    }

    [Fact]
    public void Response_SourceAtAClosedEnd_HasTwiceThePeakByItsImage()
    {
        var axis = Axis(40);
        var response = new double[axis.Count];
        Shown.Moving(axis, new AirSetting(1.2, 0, 0, 1), 0.05, response);
        // Image at -0.05: 1 + exp(-0.1 / L).
        Assert.InRange(response[0] / (1 + Math.Exp(-0.1 / 1.2)), 1 - GridShare, 1 + GridShare);
    }

    [Fact]
    public void Response_SectionEndOfUnitResistance_HalvesTheTrace()
    {
        // Flux through a barrier of resistance R: (c- - c+) / R = L c+ (scaled by k), so c+ / c- = 1 / (1 + R L) = 1/2 at R = 1/L.
        var axis = Axis(60, 30, 30);
        var response = new double[axis.Count];
        var setting = new AirSetting(1.2, 0, 1, 1);
        var source = axis.CellAt(20);
        Shown.Moving(axis, setting, 29.95, response);
        var before = response[source];
        Shown.Moving(axis, setting, 30.05, response);
        Assert.InRange(response[source] / before, 0.45, 0.5);
    }

    [Fact]
    public void Response_CalmClosedLineUp_KeepsTheMass()
    {
        // Closed ends and loss k everywhere: what leaks in is lost in the cells, sum of c w = 2 L for strength 1.
        var axis = Axis(12, 4, 8);
        var response = new double[axis.Count];
        var total = 0.0;
        var source = axis.CellAt(5);
        for (var c = 0; c < axis.Count; c++)
        {
            Shown.Moving(axis, new AirSetting(1.5, 0, 1.5, 1), axis.Centres[c], response);
            total += response[source] * axis.Widths[c];
        }

        Assert.Equal(3, total, 1e-9);
    }
}
