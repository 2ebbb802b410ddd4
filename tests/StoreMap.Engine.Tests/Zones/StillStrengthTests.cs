using StoreMap.Plans;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>Strengths in moving and still air. The ratio against the closed solutions of the dispersion equation (Crank 1975, instantaneous and
/// continuous plane sources; Ogata and Banks 1961 for the erf form).</summary>
public class StillStrengthTests
{
    /// <summary>A plane source G brings G/(2 A √(D k)) to steady moving air of reach √(D/k) that exchanges q = k A a metre, and
    /// G erf(√(k t)) / (2 A √(D k)) to still air after t seconds.</summary>
    [Fact]
    public void LogRatio_OpenCase_IsThatOfTheClosedSolutionsLessTheCoilsPressure()
    {
        const double reach = 1.2, section = 0.85, stillDispersion = 0.0035, stillLoss = 0.0015, pressure = 0.8;
        var fixture = Plan.Fixtures[0];
        var loss = RoughStrength.ExchangePerMetre(fixture) / section;
        var moving = 1 / (2 * section * Math.Sqrt(reach * reach * loss * loss));
        var erf = MathNet.Numerics.SpecialFunctions.Erf(Math.Sqrt(stillLoss * StillAir.UnitSeconds));
        var still = pressure * erf / (2 * section * Math.Sqrt(stillDispersion * stillLoss));
        Assert.Equal(Math.Log(still / moving), StillStrength.LogRatio(fixture), 1e-6);
    }

    /// <summary>A ratio of two densities of one variable, weighed by the lower one, sums to 1.</summary>
    [Theory]
    [InlineData(0, 0.5, 0)]
    [InlineData(0, 3, 0.2)]
    [InlineData(1, 3, 0.4)]
    [InlineData(2, 5, 0.6)]
    public void LogTogether_OverAllStillStrengths_SumsToOne(int kind, double moving, double variance)
    {
        const double step = 0.01;
        var link = StillStrength.Of((SourceKind)kind, Plan, Plan.Fixtures[0]);
        var sum = 0.0;
        for (var v = -15.0; v < 25; v += step)
        {
            var own = (v - link.StillMean) / link.StillDeviation;
            sum += step * NormalLaw.Density(own) / link.StillDeviation * Math.Exp(StillStrength.LogTogether(link, moving, variance, v));
        }

        Assert.Equal(1, sum, 2e-3);
    }

    /// <summary>What the still air's readings say nothing of is no evidence: with its strength as the prior has it, the pair says nothing either.</summary>
    [Fact]
    public void LogTogether_StillStrengthNotRead_SaysNothing()
    {
        var link = StillStrength.Of(SourceKind.Coil, Plan, Plan.Fixtures[0]);
        var unread = StrengthProfile.Normal(link.StillMean, link.StillDeviation * link.StillDeviation);
        Assert.Equal(0, StillStrength.LogTogether(link, StrengthProfile.Normal(2.5, 0.1), unread), 0.02);
        // A strength that was read nearly as far off as the prior allows is.
        Assert.True(StillStrength.LogTogether(link, StrengthProfile.Normal(2.5, 0.1), StrengthProfile.Normal(link.StillMean - 4, 0.1)) < -1);
    }

    /// <summary>Common practice: a case whose gas does not gather when its fans stop has breathed in its neighbour's.</summary>
    [Fact]
    public void Join_GasThatIsGoneInStillAir_SpeaksAgainstALeakAndGasThatGathersForIt()
    {
        var link = StillStrength.Of(SourceKind.Coil, Plan, Plan.Fixtures[0]);
        var (gathers, gone) = (Joined(link, 3 + link.LogRatio), Joined(link, Math.Log(0.2)));
        Assert.InRange(gathers, 0.3, 1.5);
        // No further than the chance that the two have nothing to do with each other.
        Assert.InRange(gone, Math.Log(0.05), Math.Log(0.1));
    }

    /// <summary>What lies in the base does not feel the fans: gas that gathers when they stop speaks against it and for the coil.</summary>
    [Fact]
    public void Join_GasThatGathersInStillAir_SpeaksForTheCoilAndAgainstTheBase()
    {
        var (coil, inBase) = (StillStrength.Of(SourceKind.Coil, Plan, Plan.Fixtures[0]), StillStrength.Of(SourceKind.Base, Plan, Plan.Fixtures[0]));
        var gathered = 3 + coil.LogRatio + 2;
        Assert.True(Joined(coil, gathered) > Joined(inBase, gathered) + 1);
        Assert.True(Joined(inBase, 3) > Joined(coil, 3));
    }

    private static Plan Plan { get; } = Case(LengthUnit.Foot);

    // Two evaluated cells of five, 20 ppm in moving air: those between are interpolated, those beyond left alone.
    private static double Joined(StrengthLink link, double still)
    {
        var log = new double[5];
        StrengthProfile?[] on = [null, Sure(3), null, Sure(3), null];
        StillStrength.Join(log, link, on, [null, Sure(still), null, Sure(still), null]);
        Assert.Equal([0, log[2], log[2], log[2], 0], log);
        return log[2];

        static StrengthProfile Sure(double logPpm) => new(logPpm, 0.25, [1]);
    }
}
