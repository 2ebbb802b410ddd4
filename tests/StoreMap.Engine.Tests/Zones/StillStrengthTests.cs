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
        var fixture = Case(LengthUnit.Foot).Fixtures[0];
        var loss = RoughStrength.ExchangePerMetre(fixture) / section;
        var moving = 1 / (2 * section * Math.Sqrt(reach * reach * loss * loss));
        var erf = MathNet.Numerics.SpecialFunctions.Erf(Math.Sqrt(stillLoss * StillAir.UnitSeconds));
        var still = pressure * erf / (2 * section * Math.Sqrt(stillDispersion * stillLoss));
        Assert.Equal(Math.Log(still / moving), StillStrength.LogRatio(fixture), 1e-6);
    }

    /// <summary>A ratio of two densities of one variable, weighed by the lower one, sums to 1.</summary>
    [Theory]
    [InlineData(0.5, 0, false)]
    [InlineData(3, 0.2, false)]
    [InlineData(5, 0.6, true)]
    public void LogTogether_OverAllStillStrengths_SumsToOne(double moving, double variance, bool above)
    {
        const double step = 0.01;
        var sum = 0.0;
        for (var v = -12.0; v < 22; v += step)
        {
            var own = (v - StillStrength.LogMean) / StillStrength.LogDeviation;
            sum += step * NormalLaw.Density(own) / StillStrength.LogDeviation * Math.Exp(StillStrength.LogTogether(1.5, moving, variance, v, above));
        }

        Assert.Equal(1, sum, 2e-3);
    }

    /// <summary>Common practice: a case whose gas does not gather when its fans stop has breathed in its neighbour's.</summary>
    [Fact]
    public void Join_GasThatIsGoneInStillAir_SpeaksAgainstALeakAndGasThatGathersForIt()
    {
        const double ratio = 1.5, moving = 3;
        var (gathers, gone) = (Joined(moving + ratio), Joined(Math.Log(0.2)));
        Assert.InRange(gathers, 0.3, Math.Log(StillStrength.LogDeviation));
        // No further than the chance that the two have nothing to do with each other.
        Assert.InRange(gone, Math.Log(0.05), Math.Log(0.1));

        double Joined(double still)
        {
            var log = new double[5];
            StrengthProfile?[] on = [null, Sure(moving), null, Sure(moving), null];
            StillStrength.Join(log, ratio, on, [null, Sure(still), null, Sure(still), null], above: false);
            Assert.Equal([log[1], log[1], log[1]], log[1..4]);
            return log[2];
        }

        static StrengthProfile Sure(double logPpm) => new(logPpm, 0.25, [1]);
    }
}
