namespace StoreMap.Tests.Oracles;

/// <summary>The Matérn correlation with ν = 1 in closed form: x K1(x), x = √8 · distance / range.</summary>
internal static class Matern
{
    /// <summary>Correlation at a distance.</summary>
    public static double Correlation(double distance, double range)
    {
        var x = Math.Sqrt(8) * distance / range;
        return x < 1e-9 ? 1 : x * BesselK1(x);
    }

    /// <summary>Modified Bessel function K1: Abramowitz and Stegun 9.8.3, 9.8.7 and 9.8.8 (absolute error of x K1 below 2.2e-7).</summary>
    public static double BesselK1(double x)
    {
        if (x > 2)
        {
            var u = 2 / x;
            return Math.Exp(-x) / Math.Sqrt(x)
                * Polynomial(u, 1.25331414, 0.23498619, -0.03655620, 0.01504268, -0.00780353, 0.00325614, -0.00068245);
        }

        var t = x / 3.75;
        var i1 = x * Polynomial(t * t, 0.5, 0.87890594, 0.51498869, 0.15084934, 0.02658733, 0.00301532, 0.00032411);
        var y = x * x / 4;
        return (Math.Log(x / 2) * i1)
            + (Polynomial(y, 1, 0.15443144, -0.67278579, -0.18156897, -0.01919402, -0.00110404, -0.00004686) / x);
    }

    private static double Polynomial(double x, params double[] c)
    {
        var sum = 0.0;
        for (var i = c.Length - 1; i >= 0; i--) sum = (sum * x) + c[i];
        return sum;
    }
}
