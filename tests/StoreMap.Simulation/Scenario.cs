using StoreMap.Plans;

namespace StoreMap.Simulation;

/// <summary>Where a simulated leak is.</summary>
public enum LeakPlace
{
    /// <summary>At a coil or valve in the case air.</summary>
    CaseAir,

    /// <summary>In the base piping: the gas runs under the whole line-up.</summary>
    Base,

    /// <summary>On a line overhead: the gas sinks over several cases.</summary>
    Overhead,

    /// <summary>In a walk-in.</summary>
    WalkIn,
}

/// <summary>One leak of a scenario.</summary>
/// <param name="Place">Kind of place.</param>
/// <param name="Fixture">Fixture id; null overhead.</param>
/// <param name="Along">Metres along the fixture's front.</param>
/// <param name="At">Plan place, metres, of an overhead leak.</param>
/// <param name="KilogramsPerYear">Strength.</param>
/// <param name="MolarMass">Grams per mole of the refrigerant.</param>
public sealed record SimulatedLeak(
    LeakPlace Place, string? Fixture, double Along, PlanPoint At, double KilogramsPerYear, double MolarMass)
{
    /// <summary>Gas set free, cubic metres a second times 1e6: ppm times cubic metres of air a second (24.45 L/mol).</summary>
    public double PpmCubicMetresPerSecond =>
        KilogramsPerYear * 1000 / (365.25 * 86400) / MolarMass * 0.02445 * 1e6;
}

/// <summary>A spray in a room: the level jumps and dies away.</summary>
/// <param name="Room">Room id; a walk-in that opens to it gets the same level.</param>
/// <param name="StartSeconds">Seconds after the visit's start; may be negative.</param>
/// <param name="PeakPpm">Level at the start, ppm shown.</param>
/// <param name="AirChangesPerHour">How fast it dies away.</param>
public sealed record Spray(string Room, double StartSeconds, double PeakPpm, double AirChangesPerHour);

/// <summary>A stretch of time in which a fixture's fans stand still.</summary>
/// <param name="Fixture">Fixture id.</param>
/// <param name="FromSeconds">Seconds after the visit's start.</param>
/// <param name="ToSeconds">Seconds after the visit's start.</param>
public sealed record FansOff(string Fixture, double FromSeconds, double ToSeconds);

/// <summary>One place and time at which the probe is held.</summary>
/// <param name="ArriveSeconds">Seconds after the visit's start.</param>
/// <param name="DwellSeconds">How long.</param>
/// <param name="Point">The probe point.</param>
/// <param name="Air">Air state that the technician writes down.</param>
public sealed record Stop(double ArriveSeconds, double DwellSeconds, ProbePoint Point, AirState Air);

/// <summary>Everything that makes one visit.</summary>
public sealed record Scenario
{
    /// <summary>The store.</summary>
    public required Plan Plan { get; init; }

    /// <summary>Seed of all chance.</summary>
    public required ulong Seed { get; init; }

    /// <summary>Leaks present.</summary>
    public required IReadOnlyList<SimulatedLeak> Leaks { get; init; }

    /// <summary>Sprays.</summary>
    public IReadOnlyList<Spray> Sprays { get; init; } = [];

    /// <summary>Fans stopped.</summary>
    public IReadOnlyList<FansOff> FansOff { get; init; } = [];

    /// <summary>Stops in time order.</summary>
    public required IReadOnlyList<Stop> Stops { get; init; }

    /// <summary>The monitor.</summary>
    public SimulatedMonitor Monitor { get; init; } = new();

    /// <summary>Log-normal deviation of fixed differences between places along a front.</summary>
    public double PatchDeviation { get; init; } = 0.2;
}
