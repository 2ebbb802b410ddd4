namespace StoreMap.Zones;

/// <summary>The normal distribution and sums of logarithms.</summary>
internal static class NormalLaw
{
    /// <summary>Standard normal distribution function, absolute error under 1e-7 relative to its value in both tails
    /// (complementary error function by the rational Chebyshev fit of Numerical Recipes, section 6.2).</summary>
    public static double Phi(double z) => 0.5 * ErrorComplement(-z / Math.Sqrt(2));

    /// <summary>Standard normal density.</summary>
    public static double Density(double z) => Math.Exp(-0.5 * z * z) / Math.Sqrt(2 * Math.PI);

    /// <summary>The error function.</summary>
    public static double ErrorFunction(double x) => 1 - ErrorComplement(x);

    /// <summary>Logarithm of <see cref="Phi"/>, finite down to z of about -1e150.</summary>
    public static double LogPhi(double z) => z > -8
        ? Math.Log(Phi(z))
        : (-0.5 * z * z) - Math.Log(-z) - (0.5 * Math.Log(2 * Math.PI)) + Math.Log(1 - (1 / (z * z)) + (3 / (z * z * z * z)));

    /// <summary>Logarithm of the sum of two exponentials.</summary>
    public static double LogAdd(double a, double b)
    {
        if (double.IsNegativeInfinity(a)) return b;
        if (double.IsNegativeInfinity(b)) return a;
        return a > b ? a + Math.Log(1 + Math.Exp(b - a)) : b + Math.Log(1 + Math.Exp(a - b));
    }

    /// <summary>Logarithm of the sum of exponentials; negative infinity for none.</summary>
    public static double LogSum(IReadOnlyList<double> logs)
    {
        var best = double.NegativeInfinity;
        foreach (var log in logs) best = Math.Max(best, log);
        if (double.IsNegativeInfinity(best)) return best;
        var sum = 0.0;
        foreach (var log in logs) sum += Math.Exp(log - best);
        return best + Math.Log(sum);
    }

    private static double ErrorComplement(double x)
    {
        var z = Math.Abs(x);
        var t = 1 / (1 + (0.5 * z));
        var r = t * Math.Exp((-z * z) - 1.26551223 + (t * (1.00002368 + (t * (0.37409196 + (t * (0.09678418
            + (t * (-0.18628806 + (t * (0.27886807 + (t * (-1.13520398 + (t * (1.48851587 + (t * (-0.82215223
            + (t * 0.17087277))))))))))))))))));
        return x >= 0 ? r : 2 - r;
    }
}
