namespace StoreMap.Zones;

/// <summary>How far readings stray from the steady air model, as logarithmic deviations; four levels, one of them true for a visit
/// to a line-up.</summary>
internal static class NoiseLevels
{
    /// <summary>Deviation that differs from reading to reading: turbulence within the dwell.</summary>
    public static double[] Turbulence { get; } = [0.1, 0.2, 0.35, 0.55];

    /// <summary>Deviation fixed to the place, which repeated readings share: product, grilles, uneven fans.</summary>
    public static double[] Patch { get; } = [0.08, 0.2, 0.28, 0.4];

    /// <summary>Prior probabilities of the levels.</summary>
    public static double[] Weight { get; } = [0.2, 0.3, 0.3, 0.2];

    /// <summary>Length over which a patch keeps its deviation (1/e), metres: 2.5 ft.</summary>
    public const double PatchMetres = 0.76;

    /// <summary>The multiplicative deviation built into the scale on which readings are compared; a constant of the scale only.</summary>
    public const double ScaleDeviation = 0.35;

    /// <summary>Number of levels.</summary>
    public const int Count = 4;
}
