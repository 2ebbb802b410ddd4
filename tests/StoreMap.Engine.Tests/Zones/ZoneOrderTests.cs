using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

public class ZoneOrderTests
{
    private static readonly (double Feet, double Ppm)[] Clear = [(2, 0), (6, 1), (10, 4), (14, 22), (18, 4), (22, 1), (27, 0)];

    [Fact]
    public void Locate_TwoLeaksLikelyEnough_NamesTheOneWithMoreGasFirst()
    {
        var weak = Two(Clear, [.. Clear.Select(r => (r.Feet, r.Ppm * 6))]);
        Assert.All(weak.Zones.Take(2), z => Assert.True(z.Probability >= 0.7));
        Assert.Equal(["C3", "C1"], weak.Zones.Take(2).Select(z => z.Fixture));
        Assert.Equal(["C1", "C3"], Two([.. Clear.Select(r => (r.Feet, r.Ppm * 6))], Clear).Zones.Take(2).Select(z => z.Fixture));
    }

    // Two cases 25 m apart, so that neither explains the other's gas.
    private static LocateResult Two((double Feet, double Ppm)[] here, (double Feet, double Ppm)[] there)
    {
        var far = Neighbour("C3", 25);
        var plan = Case(LengthUnit.Foot) with { Fixtures = [Case(LengthUnit.Foot).Fixtures[0], far], Outline = [new(-5, -40), new(20, -40), new(20, 5), new(-5, 5)] };
        var survey = Along(here);
        var others = there.Select((r, i) => Reading(20 + i, r.Ppm, new ReadingPlace { Fixture = "C3", Along = r.Feet * Foot, At = far.Front!.PointAt(r.Feet * Foot) }));
        return Locating.Locate(plan, Net([.. survey.Readings, .. others]), []);
    }
}
