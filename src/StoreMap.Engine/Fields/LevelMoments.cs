using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>From the log level back to ppm. A level g stands for n = scale (e^g − 1), and for 0 where g is negative: there is no less gas
/// than none. With g normal of mean m and standard deviation s, all moments of n have closed forms.</summary>
internal static class LevelMoments
{
    /// <summary>The log level of a net ppm.</summary>
    public static double Level(double netPpm, double scale) => Math.Log(1 + (netPpm / scale));

    /// <summary>The net ppm of a log level, at least 0.</summary>
    public static double Ppm(double level, double scale) => scale * Math.Max(0, Math.Exp(level) - 1);

    /// <summary>Mean and standard deviation of n.</summary>
    /// <remarks>E[e^(kg); g > 0] = e^(km + k²s²/2) Φ(m/s + k s).</remarks>
    public static (double Mean, double Deviation) Of(double m, double s, double scale)
    {
        if (s <= 0) return (Ppm(m, scale), 0);
        var zero = CensoredNormal.Below(m / s);
        var first = Math.Exp(m + (s * s / 2)) * CensoredNormal.Below((m / s) + s);
        var second = Math.Exp((2 * m) + (2 * s * s)) * CensoredNormal.Below((m / s) + (2 * s));
        var mean = Math.Max(0, first - zero);
        var square = second - (2 * first) + zero;
        return (scale * mean, scale * Math.Sqrt(Math.Max(0, square - (mean * mean))));
    }

    /// <summary>Probability that n is at or above a threshold above 0.</summary>
    public static double Exceedance(double m, double s, double thresholdPpm, double scale)
    {
        var level = Level(thresholdPpm, scale);
        return s <= 0 ? (m >= level ? 1 : 0) : CensoredNormal.Below((m - level) / s);
    }

    /// <summary>The standard normal value not exceeded with a given probability in (0, 1), by Newton's method.</summary>
    public static double NormalQuantile(double probability)
    {
        if (!(probability is > 0 and < 1)) throw new ArgumentOutOfRangeException(nameof(probability), probability, "A probability between 0 and 1.");
        if (probability > 0.5) return -NormalQuantile(1 - probability);
        // Start from the tail's leading term; the logarithm keeps Newton's steps from overshooting.
        var z = -Math.Sqrt(Math.Max(0, -2 * Math.Log(2 * probability)));
        for (var i = 0; i < 50; i++)
        {
            var step = (CensoredNormal.LogBelow(z) - Math.Log(probability)) / CensoredNormal.Mills(z);
            z -= step;
            if (Math.Abs(step) < 1e-12) break;
        }

        return z;
    }
}
