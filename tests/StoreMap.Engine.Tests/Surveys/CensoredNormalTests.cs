using CsCheck;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>Values cut off above. Check values of normal theory: E[Z | Z &lt; 0] = −√(2/π) = −0.797885, E[Z | Z &lt; −1] = −1.525135;
/// Φ(−1.959964) = 0.025 (tables); Φ(−10) = 7.619853e−24 (Abramowitz and Stegun, table 26.2).</summary>
public class CensoredNormalTests
{
    [Theory]
    [InlineData(0, -0.797885)]
    [InlineData(-1, -1.525135)]
    public void MeanBelow_StandardNormal_IsTheTabledMean(double limit, double mean) =>
        Assert.Equal(mean, CensoredNormal.MeanBelow(0, 1, limit), 1e-6);

    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(-1.959963984540054, 0.025)]
    [InlineData(1, 0.841344746068543)]
    [InlineData(-3, 0.001349898031630)]
    [InlineData(-6, 9.865876450377e-10)]
    public void Below_TabledPoints_Agree(double a, double p) => Assert.Equal(1, CensoredNormal.Below(a) / p, 1e-11);

    [Fact]
    public void LogBelow_DeepInTheTail_Agrees() => Assert.Equal(Math.Log(7.619853024160527e-24), CensoredNormal.LogBelow(-10), 1e-9);

    [Fact]
    public void LogBelow_AtTheSwitchOfFormula_HasNoStep() =>
        Assert.Equal(CensoredNormal.LogBelow(-9.999999), CensoredNormal.LogBelow(-10.000001), 3e-5);

    [Fact]
    public void Mills_AnyArgument_IsTheSlopeOfLogBelow() => Gen.Double[-30, 6].Sample(a =>
    {
        const double H = 1e-4;
        var slope = (CensoredNormal.LogBelow(a + H) - CensoredNormal.LogBelow(a - H)) / (2 * H);
        Assert.Equal(slope, CensoredNormal.Mills(a), 1e-5 * (1 + Math.Abs(a)));
    });

    [Fact]
    public void LogBelow_AnyArgument_IsThatOfSeriesAndFraction() => Gen.Double[-37, 8].Sample(a =>
    {
        var exact = a < -3 ? LogFraction(-a) : Math.Log(0.5 + (Math.Sign(a) * Series(Math.Abs(a))));
        Assert.Equal(exact, CensoredNormal.LogBelow(a), 1e-13 * Math.Max(1, Math.Abs(exact)));
    });

    // Probability between 0 and a: Abramowitz and Stegun 26.2.11.
    private static double Series(double a)
    {
        double term = a, sum = a;
        for (var k = 1; k < 400; k++) sum += term *= a * a / ((2 * k) + 1);
        return sum * CensoredNormal.Density(a);
    }

    // Logarithm of the upper tail: the continued fraction 26.2.14.
    private static double LogFraction(double a)
    {
        var fraction = 0.0;
        for (var k = 400; k >= 1; k--) fraction = k / (a + fraction);
        return (-0.5 * a * a) - Math.Log(Math.Sqrt(2 * Math.PI) * (a + fraction));
    }
}
