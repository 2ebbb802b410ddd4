namespace StoreMap.Surveys;

/// <summary>The upper tail of the normal distribution, to full precision and without a loop to convergence.</summary>
/// <remarks>Rational Chebyshev approximations of the complementary error function: W. J. Cody, Math. Comp. 23 (1969), 631-637; coefficients of
/// the 16-digit set.</remarks>
internal static class NormalTail
{
    private const double RootHalf = 0.70710678118654752;
    private const double OverRootPi = 0.56418958354775629;

    private static readonly double[] NearTop = [3.16112374387056560, 1.13864154151050156e2, 3.77485237685302021e2, 3.20937758913846947e3];
    private static readonly double[] NearBottom = [2.36012909523441209e1, 2.44024637934444173e2, 1.28261652607737228e3, 2.84423683343917062e3];

    private static readonly double[] MiddleTop =
    [
        5.64188496988670089e-1, 8.88314979438837594, 6.61191906371416295e1, 2.98635138197400131e2, 8.81952221241769090e2, 1.71204761263407058e3,
        2.05107837782607147e3, 1.23033935479799725e3,
    ];

    private static readonly double[] MiddleBottom =
    [
        1.57449261107098347e1, 1.17693950891312499e2, 5.37181101862009858e2, 1.62138957456669019e3, 3.29079923573345963e3, 4.36261909014324716e3,
        3.43936767414372164e3, 1.23033935480374942e3,
    ];

    private static readonly double[] FarTop = [3.05326634961232344e-1, 3.60344899949804439e-1, 1.25781726111229246e-1, 1.60837851487422766e-2, 6.58749161529837803e-4];
    private static readonly double[] FarBottom = [2.56852019228982242, 1.87295284992346047, 5.27905102951428412e-1, 6.05183413124413191e-2, 2.33520497626869185e-3];

    /// <summary>Probability that a standard normal value is above a, times e^(a²/2).</summary>
    /// <param name="a">At least 0.</param>
    public static double Scaled(double a)
    {
        var x = a * RootHalf;
        if (x <= 0.46875)
        {
            var square = x * x;
            return 0.5 * (1 - (x * Ratio(1.85777706184603153e-1, NearTop, NearBottom, square))) * Math.Exp(square);
        }

        if (x <= 4) return 0.5 * Ratio(2.15311535474403846e-8, MiddleTop, MiddleBottom, x);
        var inverse = 1 / (x * x);
        return 0.5 * (OverRootPi - (inverse * Ratio(1.63153871373020978e-2, FarTop, FarBottom, inverse))) / x;
    }

    // The numerator's first coefficient stands apart; the denominator's is 1.
    private static double Ratio(double first, double[] top, double[] bottom, double x)
    {
        var (above, below) = (first, 1.0);
        for (var i = 0; i < top.Length; i++) (above, below) = ((above * x) + top[i], (below * x) + bottom[i]);
        return above / below;
    }
}
