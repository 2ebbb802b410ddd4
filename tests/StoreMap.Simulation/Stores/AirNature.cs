using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>The numbers behind a store's air, drawn once a store. Units: metres, seconds.</summary>
/// <remarks>Ranges: dispersion along a case and losses so that a trace falls to 1/e over 2 to 9 ft with fans on, as docs/accuracy.md
/// states; eddy dispersion of rooms 0.001 to 0.06 m2/s (indoor measurements); patch effects log-sd 0.25 over 2.5 ft.</remarks>
internal sealed record AirNature
{
    public required double DispersionFactor { get; init; }

    public required double LossFactor { get; init; }

    /// <summary>Deviation of the draught along a case, m/s.</summary>
    public required double Draught { get; init; }

    /// <summary>Deviation of the steady drift along a line-up, m/s.</summary>
    public required double Drift { get; init; }

    public required double GustsPerHour { get; init; }

    /// <summary>Bursts of air exchange (a shopper, an opened door) per metre and hour.</summary>
    public required double BurstsPerMetreHour { get; init; }

    /// <summary>Fastest draught that may enter at an open end, m/s.</summary>
    public required double EndDraught { get; init; }

    public required double PatchDeviation { get; init; }

    /// <summary>Log deviation of the flicker at the tip within seconds.</summary>
    public required double Flicker { get; init; }

    /// <summary>Chance a second that clear air passes the tip for a few seconds.</summary>
    public required double GapChance { get; init; }

    /// <summary>Eddy dispersion of the aisle, m2/s.</summary>
    public required double RoomDispersion { get; init; }

    public required double RoomDraught { get; init; }

    /// <summary>Rate at which the aisle's low air mixes into the store above, 1/s.</summary>
    public required double RoomLoss { get; init; }

    public static AirNature Of(Roughness roughness, SeededNoise noise)
    {
        var rough = roughness == Roughness.Rough;
        var spread = rough ? 0.5 : 0.3;
        return new AirNature
        {
            DispersionFactor = Math.Clamp(noise.LogNormal(1, spread), 0.3, 3),
            LossFactor = Math.Clamp(noise.LogNormal(1, spread), 0.3, 3),
            Draught = rough ? 0.010 : 0.004,
            Drift = rough ? 0.007 : 0.003,
            GustsPerHour = rough ? 15 : 4,
            BurstsPerMetreHour = rough ? 3 : 0.5,
            EndDraught = rough ? 0.02 : 0,
            PatchDeviation = rough ? 0.25 : 0.08,
            Flicker = rough ? 0.35 : 0.15,
            GapChance = rough ? 0.01 : 0,
            RoomDispersion = noise.LogBetween(0.015, 0.045),
            RoomDraught = rough ? 0.05 : 0.025,
            RoomLoss = 1 / noise.Between(150, 350),
        };
    }

    /// <summary>Cross-section of the moving case air, m2.</summary>
    public static double Section(FixtureKind kind) => kind switch
    {
        FixtureKind.DoorCase => 0.7,
        FixtureKind.IslandCase => 0.8,
        FixtureKind.ServiceCase => 0.6,
        _ => 1.0,
    };

    /// <summary>Dispersion along the case with fans on, m2/s, and loss to the aisle, 1/s.</summary>
    public (double Dispersion, double Loss) Running(FixtureKind kind)
    {
        var (dispersion, loss) = kind switch
        {
            FixtureKind.DoorCase => (0.025, 0.009),
            FixtureKind.IslandCase => (0.03, 0.015),
            FixtureKind.ServiceCase => (0.02, 0.012),
            _ => (0.03, 0.022),
        };
        return (dispersion * DispersionFactor, loss * LossFactor);
    }

    /// <summary>The same in still air.</summary>
    public (double Dispersion, double Loss) Still(FixtureKind kind) =>
        (0.003 * DispersionFactor, (kind == FixtureKind.DoorCase ? 0.001 : 0.002) * LossFactor);

    /// <summary>The same in the base, fans or not.</summary>
    public (double Dispersion, double Loss) Base => (0.05 * DispersionFactor, 0.012 * LossFactor);
}
