namespace StoreMap.Fields;

/// <summary>The Matérn correlation with ν = 1, x K₁(x) with x = √8 distance / range: what the field has where no wall is near.</summary>
internal static class MaternModel
{
    /// <summary>Correlation at a distance, both in metres.</summary>
    public static double Correlation(double distance, double range)
    {
        // K₁(x) = ∫₀^∞ exp(−x cosh t) cosh t dt (Abramowitz and Stegun 9.6.24); the trapezoid rule converges faster than any power.
        var x = Math.Sqrt(8) * distance / range;
        if (x < 1e-6) return 1;
        const double Step = 0.05;
        var sum = 0.5 * Math.Exp(-x);
        for (var t = Step; x * Math.Cosh(t) < 700; t += Step) sum += Math.Exp(-x * Math.Cosh(t)) * Math.Cosh(t);
        return x * sum * Step;
    }

    /// <summary>How far a single exact reading takes away at least a share of the prior variance: the distance at which the squared
    /// correlation is that share.</summary>
    /// <param name="share">In (0, 1].</param>
    /// <param name="range">Metres.</param>
    public static double Reach(double share, double range)
    {
        var (near, far) = (0.0, 3 * range);
        for (var i = 0; i < 60; i++)
        {
            var middle = (near + far) / 2;
            var correlation = Correlation(middle, range);
            if (correlation * correlation >= share) near = middle;
            else far = middle;
        }

        return near;
    }
}
