namespace StoreMap.Zones;

/// <summary>One setting of the air inside a line-up: moving (fans on), or still for so many seconds.</summary>
/// <param name="Reach">Metres over which a leak's trace falls to 1/e in calm moving air, sqrt(D/k).</param>
/// <param name="Drift">Along-axis drift u / (2 sqrt(D k)) of moving air, positive towards the axis' end.</param>
/// <param name="Blocking">Resistance of a section end in units of <paramref name="Reach"/> metres of air: 0 open, 1 halves the trace.</param>
/// <param name="Weight">Prior probability of the setting; a regime's weights sum to 1.</param>
internal readonly record struct AirSetting(double Reach, double Drift, double Blocking, double Weight)
{
    /// <summary>Share of a leak's own ppm that comes back into the line-up from the aisle, falling over <see cref="CaseAir.ReturnMetres"/>.</summary>
    public double Return { get; init; }

    /// <summary>Dispersion of still air, m²/s; 0 with the fans running.</summary>
    public double StillDispersion { get; init; }

    /// <summary>Slow drift of still air, m/s.</summary>
    public double StillSpeed { get; init; }

    /// <summary>Share of the still peak left over from the trace the fans had spread.</summary>
    public double Pedestal { get; init; }

    /// <summary>Deviation of the stretch over which a source above the case lets its gas in, metres; 0 for a leak in the case.</summary>
    public double SourceWidth { get; init; }

    /// <summary>Share of one space's ppm (case air or base) that the other holds over it.</summary>
    public double Cross { get; init; } = MiddleCross;

    /// <summary>The middle of <see cref="Cross"/>, assumed where the spots probed cannot tell.</summary>
    public const double MiddleCross = 0.18;

    /// <summary>Deviation of the logarithm of <see cref="Cross"/>.</summary>
    public const double CrossLogDeviation = 0.82;

    // Common practice only says that the higher spot tells the space: a tenth to a half, log-sd about 0.8.
    private static readonly (double Share, double Weight)[] Crosses = [(0.06, 0.3), (0.18, 0.4), (0.5, 0.3)];

    /// <summary>Every setting with every share that crosses from one space to the other.</summary>
    public static AirSetting[] WithCross(AirSetting[] settings) =>
        [.. settings.SelectMany(s => Crosses.Select(c => s with { Cross = c.Share, Weight = s.Weight * c.Weight }))];

    /// <summary>What the gas leaked since the fans stopped depends on, the rest alike.</summary>
    public static AirSetting OfBuildUp(AirSetting setting) =>
        new(0, 0, setting.Blocking, 0) { StillDispersion = setting.StillDispersion, StillSpeed = setting.StillSpeed };

    /// <summary>What the trace that the fans had spread depends on, the rest alike.</summary>
    public static AirSetting OfRest(AirSetting setting) => new(setting.Reach, setting.Drift, setting.Blocking, 0);

    /// <summary>True when nothing drifts.</summary>
    public bool Calm => Drift == 0 && StillSpeed == 0;
}
