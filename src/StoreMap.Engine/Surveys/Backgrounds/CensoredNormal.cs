namespace StoreMap.Surveys;

/// <summary>The normal distribution cut off above: what is known of a value that was only seen to be below a limit.
/// Source: normal theory, e.g. Cohen, Truncated and Censored Samples (1991), chapter 2.</summary>
internal static class CensoredNormal
{
    private const double RootTwoPi = 2.5066282746310002;

    /// <summary>Standard normal density.</summary>
    public static double Density(double z) => Math.Exp(-0.5 * z * z) / RootTwoPi;

    /// <summary>Logarithm of the probability that a standard normal value is below a; good for any finite a.</summary>
    public static double LogBelow(double a) => a < 0 ? LogTail(-a) : Math.Log(Below(a));

    /// <summary>Probability that a standard normal value is below a; good relative accuracy in the lower tail.</summary>
    public static double Below(double a) => a < 0 ? Upper(-a) : 1 - Upper(a);

    /// <summary>Density over probability below: the inverse Mills ratio λ(a) = φ(a)/Φ(a). E[Z | Z &lt; a] = −λ(a).</summary>
    public static double Mills(double a) => a < 0 ? 1 / (RootTwoPi * NormalTail.Scaled(-a)) : Density(a) / Below(a);

    /// <summary>Mean of a normal value known to lie below a limit: μ − σ λ((limit − μ)/σ).</summary>
    public static double MeanBelow(double mean, double deviation, double limit) =>
        mean - (deviation * Mills((limit - mean) / deviation));

    // Upper tail for a ≥ 0.
    private static double Upper(double a) => NormalTail.Scaled(a) * Math.Exp(-0.5 * a * a);

    private static double LogTail(double a) => (-0.5 * a * a) + Math.Log(NormalTail.Scaled(a));
}
