using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>What a net ppm in a case's air stands for in refrigerant lost, to a factor of two or three. Never a leak rate.</summary>
internal static class RoughStrength
{
    /// <summary>Seconds in a year of 365.25 days.</summary>
    public const double SecondsPerYear = 3.15576e7;

    /// <summary>The gas constant, J/(mol K), CODATA 2018.</summary>
    public const double GasConstant = 8.314462618;

    /// <summary>The true strength lies within this factor either side of the middle figure.</summary>
    public const double RangeFactor = 2.5;

    /// <summary>Log-normal prior of a leak's strength: 0.3 to 40 oz a day holds the bulk.</summary>
    public const double PriorLogMean = 3.58; // ln of 36 kg a year, the middle of 3.1 and 414

    /// <summary>Deviation of the strength's logarithm.</summary>
    public const double PriorLogDeviation = 1.6;

    /// <summary>Deviation of the logarithm of the air a case exchanges: known to a factor of about 2.5 at 90 %.</summary>
    public const double ExchangeLogDeviation = 0.55;

    /// <summary>Deviation of the logarithm of the ppm a leak at the coil brings: its strength and the air exchanged.</summary>
    public static double CaseLogDeviation { get; } = Math.Sqrt((PriorLogDeviation * PriorLogDeviation) + (ExchangeLogDeviation * ExchangeLogDeviation));

    /// <summary>The same for a leak in the base.</summary>
    public static double BaseLogDeviation { get; } = Math.Sqrt((PriorLogDeviation * PriorLogDeviation) + (BaseAir.ExchangeDeviation * BaseAir.ExchangeDeviation));

    /// <summary>Molar mass assumed when the refrigerant is unknown, g/mol: that of R-448A.</summary>
    private const double DefaultMolarMass = 86.28;

    /// <summary>Grams per cubic metre of a concentration: ppm 1e-6 M P / (R T).</summary>
    public static double GramsPerCubicMetre(double ppm, double molarMass, double kelvin, double pascal = 101325) =>
        ppm * 1e-6 * molarMass * pascal / (GasConstant * kelvin);

    /// <summary>Kilograms a year carried by an air flow at a concentration.</summary>
    public static double KilogramsPerYear(double ppm, double flowCubicMetresPerSecond, double molarMass, double kelvin) =>
        flowCubicMetresPerSecond * GramsPerCubicMetre(ppm, molarMass, kelvin) * SecondsPerYear / 1000;

    /// <summary>Air exchanged between a case and its aisle, m³/s for a metre of front. Doors: the measured 0.0173 m³/s of a shut
    /// four-door case, 10 ft long. The others: infiltration share of the cooling load over the enthalpy difference (docs/zones.md).</summary>
    public static double ExchangePerMetre(Fixture fixture) => fixture.Kind switch
    {
        FixtureKind.DoorCase => 0.0057,
        FixtureKind.OpenCase => fixture.DoorsRetrofit ? 0.0075 : 0.022,
        FixtureKind.IslandCase => 0.009,
        FixtureKind.ServiceCase => 0.009,
        _ => 0.006,
    };

    /// <summary>Air exchanged by a walk-in, m³/s: 0.6 air changes an hour of the room's volume at 3 m height, at least 0.008.</summary>
    public static double ExchangeOfWalkIn(double areaSquareMetres) => Math.Max(0.008, areaSquareMetres * 3 * 0.6 / 3600);

    /// <summary>Temperature of the case air, kelvin, for the density of the gas.</summary>
    public static double KelvinOf(Fixture fixture) => fixture.Kind == FixtureKind.WalkIn ? 268 : 274;

    /// <summary>Kilograms a year of a leak whose peak in an endless line-up would be 1 ppm: the trace holds 2 L metres of it.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="fixture">The fixture.</param>
    /// <param name="along">Metres along its front, for the refrigerant.</param>
    /// <param name="reachMetres">Reach of the trace.</param>
    /// <param name="basePiping">True for a leak in the base, which has air of its own.</param>
    public static double PerPeakPpm(Plan plan, Fixture fixture, double along, double reachMetres, bool basePiping = false) => KilogramsPerYear(
        1, (basePiping ? BaseAir.ExchangePerMetre(reachMetres) : ExchangePerMetre(fixture)) * 2 * reachMetres, MolarMassAt(plan, fixture, along), KelvinOf(fixture));

    /// <summary>Molar mass of the refrigerant at a place, g/mol; that of R-448A when unknown.</summary>
    public static double MolarMassAt(Plan plan, Fixture fixture, double along) =>
        Refrigerant.Find(plan.RefrigerantAt(fixture, along))?.MolarMass ?? DefaultMolarMass;

    /// <summary>The word for a strength: small under 15 kg a year, large from 90 (half and three times a typical found leak).</summary>
    public static string Word(double kilogramsPerYear) => kilogramsPerYear < 15 ? "small" : kilogramsPerYear < 90 ? "medium" : "large";
}
