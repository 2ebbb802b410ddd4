using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>Gas that travels through the aisles from case to case.</summary>
public class AisleTests
{
    /// <summary>Plane geometry: straight over open floor; behind a case round its nearer end, over cells of 0.5 m that make a way up to 8 % longer.</summary>
    [Fact]
    public void Between_ReadingBehindACase_GoesRoundItsEnd()
    {
        var ways = new AisleWays(Case(LengthUnit.Foot));
        Assert.Equal(5, ways.Between(new PlanPoint(2, -1), new PlanPoint(6, -4)), 1e-9);
        var length = 36 * Foot;
        var round = (length - 6) + 1 + Math.Sqrt(((length - 6) * (length - 6)) + (0.3 * 0.3));
        Assert.InRange(ways.Between(new PlanPoint(6, 0), new PlanPoint(6, 1.3)), round - 0.5, 1.08 * (round + 0.5));
        Assert.Equal(double.PositiveInfinity, ways.Between(new PlanPoint(-4, -4), new PlanPoint(19, -4)));
    }

    /// <summary>Two leaks that stand out in still air stay found beside a case across the aisle that is full of their gas, while the line-ups
    /// behind and beyond show none.</summary>
    [Fact]
    public void Locate_TwoLeaksInStillAirAndTheCaseAcrossFullOfGas_FindsBoth()
    {
        var across = Neighbour("C3", 1.2);
        var beyond = Neighbour("C4", 4);
        var plan = Case(LengthUnit.Foot) with { Fixtures = [Case(LengthUnit.Foot).Fixtures[0], across, beyond] };
        (double Feet, double Ppm)[] moving = [(3, 45), (7.5, 55), (12, 64), (16.5, 46), (21, 36), (25.5, 50), (28, 52), (32, 18), (35, 7)];
        (double Feet, double Ppm)[] still = [(5, 39), (7, 75), (9, 134), (11, 226), (13, 110), (15, 60), (22, 30), (24, 121), (26, 266), (28, 154), (30, 71)];
        NetReading At(int index, Fixture fixture, double feet, double ppm, AirState air = AirState.FansOn)
        {
            var reading = Reading(index, ppm, new ReadingPlace { Fixture = fixture.Id, Along = feet * Foot, At = fixture.Front!.PointAt(feet * Foot) });
            return reading with { Reading = reading.Reading with { Air = air } };
        }

        var survey = Net(
        [
            .. moving.Select((r, i) => At(i, plan.Fixtures[0], r.Feet, r.Ppm)),
            .. Enumerable.Range(0, 8).Select(i => At(10 + i, across, 2 + (4.5 * i), 40 - i)),
            .. Enumerable.Range(0, 8).Select(i => At(20 + i, beyond, 2 + (4.5 * i), 0)),
            .. still.Select((r, i) => At(35 + i, plan.Fixtures[0], r.Feet, r.Ppm, AirState.FansOff)),
        ]);
        var zones = Locating.Locate(plan, survey, []).Zones.Where(z => z.Fixture == "C1" && z.Probability > 0.5).ToList();
        Assert.Contains(zones, z => Math.Abs(z.Center!.Value - (11 * Foot)) < 2 * Foot);
        Assert.Contains(zones, z => Math.Abs(z.Center!.Value - (26 * Foot)) < 2 * Foot);
    }
}
