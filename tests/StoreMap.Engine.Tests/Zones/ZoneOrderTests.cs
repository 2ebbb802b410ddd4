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

    /// <summary>A leak at the joint of two cases may be in either: each is told with the highest of its own readings, not with its neighbour's.</summary>
    [Fact]
    public void Locate_LeakAtAJoint_TellsEachCaseWithItsOwnHighestReading()
    {
        var first = Case(LengthUnit.Foot).Fixtures[0] with { LineUp = "L" };
        PlanPoint Shifted(PlanPoint p) => p + new PlanPoint(36 * Foot, 0);
        var second = first with
        {
            Id = "C2", Tag = "27B", Outline = [.. first.Outline.Select(Shifted)], Front = new PlanLine([.. first.Front!.Points.Select(Shifted)]),
            Panels = [.. first.Panels.Select(p => p with { Id = p.Id.Replace("C1", "C2", StringComparison.Ordinal) })],
        };
        NetReading On(Fixture f, int index, double feet, double ppm) => Reading(index, ppm, new ReadingPlace { Fixture = f.Id, Along = feet * Foot, At = f.Front!.PointAt(feet * Foot) });
        var survey = Net([On(first, 0, 27, 4), On(first, 1, 31, 25), On(first, 2, 34.5, 80), On(second, 3, 1.5, 70), On(second, 4, 5, 22), On(second, 5, 9, 4), On(second, 6, 13, 0)]);
        var zones = Locating.Locate(Case(LengthUnit.Foot) with { Fixtures = [first, second], Outline = [new(-5, -5), new(40, -5), new(40, 5), new(-5, 5)] }, survey, []).Zones;
        Assert.Equal(80, zones.First(z => z.Fixture == "C1").PeakPpm);
        Assert.Equal(70, zones.First(z => z.Fixture == "C2").PeakPpm);
    }
}
