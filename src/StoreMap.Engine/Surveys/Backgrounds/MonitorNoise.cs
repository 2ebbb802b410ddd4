namespace StoreMap.Surveys;

/// <summary>A monitor's noise: a fixed part, a part that grows with the reading, and the step of the display.</summary>
internal readonly record struct MonitorNoise(double DetectionPpm, double ResolutionPpm, double Fraction)
{
    /// <summary>Detection limit over the deviation of a clean-air reading: Currie, Analytical Chemistry 40 (1968) 586, for a blank that
    /// is well known and 5 % errors both ways: 2 · 1.645.</summary>
    public const double DetectionFactor = 3.29;

    /// <summary>Currie's factor for the critical level: a 5 % chance of calling clean air a hit.</summary>
    public const double CriticalFactor = 1.645;

    /// <summary>Variance of a reading, ppm²: s0² + (c·ppm)² + step²/12.</summary>
    public double Variance(double ppm)
    {
        var fixedPart = DetectionPpm / DetectionFactor;
        var growing = Fraction * ppm;
        return (fixedPart * fixedPart) + (growing * growing) + (ResolutionPpm * ResolutionPpm / 12);
    }

    /// <summary>Smallest net ppm that shows with 95 % certainty, the background being known to a variance: Currie's 3.29 σ for a known
    /// blank and 4.65 σ for one paired reading follow from it.</summary>
    public static double DetectionLevel(double readingVariance, double backgroundVariance) =>
        DetectionFactor * Math.Sqrt(readingVariance + backgroundVariance);
}
