using StoreMap.Fields;
using StoreMap.Tests.Oracles;

namespace StoreMap.Tests.Fields;

public class LevelMomentsTests
{
    // Against the integrals themselves, by the midpoint rule.
    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(3.7, 0.3, 1)]
    [InlineData(-1.5, 0.8, 2)]
    [InlineData(-4, 0.5, 1)]
    [InlineData(1, 2, 0.5)]
    public void Of_NormalLevel_HasTheMomentsOfTheIntegral(double m, double s, double scale)
    {
        const int Steps = 400_000;
        double mean = 0, square = 0, above = 0;
        for (var i = 0; i < Steps; i++)
        {
            var z = -12 + (24 * (i + 0.5) / Steps);
            var weight = Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) * 24 / Steps;
            var n = scale * Math.Max(0, Math.Exp(m + (s * z)) - 1);
            mean += weight * n;
            square += weight * n * n;
            if (n >= 2) above += weight;
        }

        var (gotMean, gotDeviation) = LevelMoments.Of(m, s, scale);
        Assert.Equal(mean, gotMean, 1e-6 * (mean + 1e-3));
        Assert.Equal(Math.Sqrt(square - (mean * mean)), gotDeviation, 1e-5 * Math.Sqrt(square));
        Assert.Equal(above, LevelMoments.Exceedance(m, s, 2, scale), 1e-4);
    }

    // Abramowitz and Stegun, table 26.1 and 26.5.
    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.95, 1.6448536)]
    [InlineData(0.025, -1.9599640)]
    [InlineData(0.0001, -3.7190165)]
    public void NormalQuantile_Probability_IsTheTablesValue(double probability, double z) =>
        Assert.Equal(z, LevelMoments.NormalQuantile(probability), 1e-6);

    [Fact]
    public void Ppm_LevelAndBack_IsTheSame() => Assert.Equal(40, LevelMoments.Ppm(LevelMoments.Level(40, 2), 2), 1e-12);

    // Abramowitz and Stegun's polynomials for K1, in the oracle.
    [Theory]
    [InlineData(0.05)]
    [InlineData(0.5)]
    [InlineData(2)]
    [InlineData(7)]
    public void Correlation_Distance_IsTheClosedForm(double distance) =>
        Assert.Equal(Matern.Correlation(distance, 3), MaternModel.Correlation(distance, 3), 1e-6);

    [Fact]
    public void Reach_Share_IsWhereTheSquaredCorrelationHasIt()
    {
        var reach = MaternModel.Reach(0.3, 4);
        Assert.Equal(0.3, Math.Pow(Matern.Correlation(reach, 4), 2), 1e-6);
        Assert.Equal(0.40, reach / 4, 0.01);
    }
}
