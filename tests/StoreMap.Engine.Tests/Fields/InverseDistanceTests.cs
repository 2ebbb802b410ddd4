using StoreMap.Fields;
using StoreMap.Plans;
using static StoreMap.Tests.Fields.MeuseZinc;

namespace StoreMap.Tests.Fields;

public class InverseDistanceTests
{
    [Fact]
    public void Estimate_MeuseZinc_EqualsGstat()
    {
        foreach (var row in Table("meuse_zinc_predictions"))
            Close(row[4], InverseDistance.Estimate(LogZinc, new PlanPoint(row[2], row[3])), 1e-9);
    }

    [Fact]
    public void Estimate_ThreePointsByHand_WeighsByInverseSquare()
    {
        SamplePoint[] samples = [new(new PlanPoint(1, 0), 10), new(new PlanPoint(0, 2), 20), new(new PlanPoint(-4, 0), 40)];
        // (10/1 + 20/4 + 40/16) / (1 + 1/4 + 1/16) = 17.5 / 1.3125
        Assert.Equal(40.0 / 3, InverseDistance.Estimate(samples, new PlanPoint(0, 0)), 12);
        Assert.Equal((10 + 5) / 1.25, InverseDistance.Estimate(samples, new PlanPoint(0, 0), nearest: 2), 12);
        Assert.Equal((10 + 10 + 10) / 1.75, InverseDistance.Estimate(samples, new PlanPoint(0, 0), power: 1), 12);
    }

    [Fact]
    public void Estimate_AtASamplePoint_IsItsValue() => Assert.All(LogZinc, s => Assert.Equal(s.Value, InverseDistance.Estimate(LogZinc, s.At)));

    [Fact]
    public void Estimate_SeveralValuesAtOnePlace_IsTheirMean() =>
        Assert.Equal(3, InverseDistance.Estimate([new(new PlanPoint(1, 1), 2), new(new PlanPoint(1, 1), 4), new(new PlanPoint(0, 0), 9)], new PlanPoint(1, 1)));

    [Fact]
    public void Estimate_ValueNotANumber_IsRefused() =>
        Assert.Throws<ArgumentException>(() => InverseDistance.Estimate([new(new PlanPoint(0, 0), double.NaN)], new PlanPoint(1, 1)));
}
