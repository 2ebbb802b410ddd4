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

    /// <summary>True when nothing drifts.</summary>
    public bool Calm => Drift == 0 && StillSpeed == 0;
}
