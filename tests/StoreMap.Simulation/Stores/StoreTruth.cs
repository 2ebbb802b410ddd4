using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>How kind the air is to the technician.</summary>
public enum Roughness
{
    /// <summary>Little turbulence, hardly any fixed differences from place to place, closed line-up ends.</summary>
    Smooth,

    /// <summary>Fixed patch effects of log-sd 0.25 over 2.5 ft, gusts, draughts along the case and in at open ends.</summary>
    Rough,
}

/// <summary>What is wrong with a simulated store.</summary>
public enum StoreCase
{
    /// <summary>Nothing leaks.</summary>
    Clean,

    /// <summary>One leak in a case or walk-in.</summary>
    OneLeak,

    /// <summary>Two leaks of the same strength, at least 8 ft apart.</summary>
    TwoEqual,

    /// <summary>Two leaks, one a tenth of the other, at least 8 ft apart.</summary>
    OneTenth,

    /// <summary>One source outside the cases.</summary>
    OffCase,

    /// <summary>Nothing leaks; a spray raises a room's level.</summary>
    Aerosol,
}

/// <summary>Where on a fixture, or outside, a simulated leak sits.</summary>
public enum LeakSite
{
    /// <summary>Within 1 ft of the outer end of a line-up.</summary>
    End,

    /// <summary>At a joint of two sections.</summary>
    Joint,

    /// <summary>Where a line set comes down into the case.</summary>
    Drop,

    /// <summary>Anywhere along a coil, upstream of the fans: a fan bay spreads part of the gas.</summary>
    Coil,

    /// <summary>Anywhere else along the case.</summary>
    Interior,

    /// <summary>In the base, under the section ends.</summary>
    Base,

    /// <summary>In a walk-in.</summary>
    WalkIn,

    /// <summary>On a pipe overhead.</summary>
    Overhead,

    /// <summary>At a drop beside the cases.</summary>
    BesideDrop,
}

/// <summary>One leak of a simulated store.</summary>
/// <param name="Site">What kind of place.</param>
/// <param name="Fixture">Fixture id; null outside the cases.</param>
/// <param name="Along">Metres along the fixture's front; 0 without a front.</param>
/// <param name="At">Plan place, metres.</param>
/// <param name="OuncesPerDay">Strength with the fans on, ounces (28.35 g) a day.</param>
/// <param name="StillFactor">Strength with the fans off over strength with the fans on: coil pressure sets it.</param>
public sealed record StoreLeak(LeakSite Site, string? Fixture, double Along, PlanPoint At, double OuncesPerDay, double StillFactor)
{
    /// <summary>Grams in an ounce, to four digits.</summary>
    public const double GramsPerOunce = 28.3495;

    private const double MolarMass = 86.28;

    /// <summary>Kilograms a year with the fans on.</summary>
    public double KilogramsPerYear => OuncesPerDay * GramsPerOunce * 365.25 / 1000;

    /// <summary>ppm times cubic metres of air a second (24.45 L/mol, R-448A).</summary>
    public double PpmCubicMetresPerSecond => OuncesPerDay * GramsPerOunce / 86400 / MolarMass * 0.02445 * 1e6;
}

/// <summary>A simulated store: its plan, what leaks, and how its air behaves.</summary>
/// <param name="Number">Number of the store in its run.</param>
/// <param name="Seed">Seed of all chance in it.</param>
/// <param name="Roughness">Smooth or rough.</param>
/// <param name="Case">What is wrong with it.</param>
/// <param name="Template">Name of the floor plan's template.</param>
/// <param name="Layout">The layout as read by the engine.</param>
/// <param name="Leaks">What leaks; empty when nothing does.</param>
/// <param name="SprayRoom">Room with a spray; null without.</param>
/// <param name="SprayPpm">Level of the spray at the visit's start, ppm.</param>
public sealed record SimulatedStore(
    int Number, ulong Seed, Roughness Roughness, StoreCase Case, string Template, LayoutDocument Layout, IReadOnlyList<StoreLeak> Leaks,
    string? SprayRoom, double SprayPpm)
{
    /// <summary>The plan.</summary>
    public Plan Plan => Layout.Plan;
}
