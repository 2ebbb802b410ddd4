using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>Readings while a monitor clears, and places told by x and y. Common practice: a hose of a metre or two clears in half a minute.</summary>
public class ClearingTests
{
    /// <summary>Two leaks at the ends of a case: one over range, the other read after it. Soon after, its number may be the hose's; a minute later it hardly
    /// can be.</summary>
    [Fact]
    public void Locate_SecondPeakAfterAnOverRangeReading_CountsTheMoreTheLaterItWasRead()
    {
        var (soon, late) = (Second(2), Second(70));
        Assert.True(late > soon + 0.2, $"{late} after {soon}");
        Assert.True(late > 0.5, $"{late}");
    }

    /// <summary>Whatever the hose holds, more gas than shown is not there: the number bounds the truth from above at any time.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(30)]
    [InlineData(300)]
    public void Tables_ReadingOfCarryOver_AllowsLessGasButNotMore(double seconds)
    {
        var reading = Reading(0, 40, new ReadingPlace { Fixture = "C1", Along = 2, At = new PlanPoint(2, 0) }) with
        {
            Bound = ReadingBound.Below, CarryOver = true, SecondsSinceOverRange = seconds,
        };
        var plan = Case(LengthUnit.Foot);
        var block = Assert.Single(BlockBuilder.Of(LineUps.Of(plan)[0], Net([reading])));
        double At(double ppm) => block.Quiet.LogLikelihood([Math.Log(ppm)]);
        Assert.True(At(40) > At(4000) + 3);
        Assert.True(At(4) > At(4000) + 1.5);
        Assert.True(At(40) > At(4) - 1);
    }

    [Theory]
    [InlineData(0.2, 1, 0)]
    [InlineData(0.8, 0.5, 1)]
    public void From_PlaceTheFeetMayHaveBeenAt_ShowsLessOfTheCaseForSure(double metres, double share, double variance)
    {
        var at = SpotView.Of(Spot.Front, low: false, onBack: false);
        Assert.Equal(at with { Case = at.Case * share, LogVariance = at.LogVariance + variance }, at.From(metres));
    }

    [Theory]
    [InlineData(0.6, 3)]
    [InlineData(1.2, 1.5)]
    [InlineData(3, 1)]
    public void Narrowing_FrontsAcrossAnAisle_ShareMoreTheNearerTheyAre(double aisle, double factor)
    {
        var plan = Case(LengthUnit.Foot) with { Fixtures = [Case(LengthUnit.Foot).Fixtures[0], Neighbour("C3", aisle)] };
        Assert.Equal(factor, new AisleWays(plan).Narrowing(new PlanPoint(4, 0), "C3"), 1e-9);
        Assert.Equal(1, new AisleWays(plan).Narrowing(new PlanPoint(4, 0), null));
    }

    private static double Second(double seconds)
    {
        var survey = Along((2, 1000), (6, 260), (10, 60), (14, 14), (18, 14), (22, 40), (26, 90), (30, 190), (34, 90));
        var readings = survey.Readings.Select((r, i) => i == 0 ? r with { Bound = ReadingBound.AtLeast }
            : r with { Bound = ReadingBound.Below, CarryOver = true, SecondsSinceOverRange = seconds });
        var zones = Locating.Locate(Case(LengthUnit.Foot), survey with { Readings = [.. readings] }, []).Zones;
        return zones.Where(z => z.Center > 24 * Foot).Sum(z => z.Probability);
    }
}
