namespace StoreMap.Plans;

/// <summary>What the engine must know of a refrigerant.</summary>
/// <param name="Name">Designation after ASHRAE 34 / ISO 817, such as <c>R-448A</c>.</param>
/// <param name="MolarMass">Grams per mole.</param>
/// <param name="SafetyClass">Safety class: A1, A2L, A2, A3, B2L.</param>
/// <param name="ExposureLimitPpm">Occupational exposure limit, 8 h, ppm.</param>
/// <param name="ConcentrationLimitPpm">Refrigerant concentration limit, ppm.</param>
/// <param name="FlammableLimitPpm">Lower flammable limit, ppm; null when it has none.</param>
/// <param name="GwpAr4">Global warming potential, 100 years, IPCC AR4.</param>
public sealed record Refrigerant(
    string Name, double MolarMass, string SafetyClass, double ExposureLimitPpm, double ConcentrationLimitPpm,
    double? FlammableLimitPpm, double GwpAr4)
{
    /// <summary>True when it can burn: classes 2L, 2 and 3.</summary>
    public bool Flammable => !SafetyClass.EndsWith('1');

    /// <summary>All known refrigerants. Sources: ASHRAE 34 and ISO 817 values as published; molar masses computed from
    /// composition and IUPAC 2021 atomic weights; see docs/checks.md.</summary>
    public static IReadOnlyList<Refrigerant> All { get; } =
    [
        new("R-22", 86.47, "A1", 1000, 59000, null, 1810),
        new("R-134a", 102.03, "A1", 1000, 50000, null, 1430),
        new("R-404A", 97.60, "A1", 1000, 130000, null, 3921.6),
        new("R-407A", 90.11, "A1", 1000, 83000, null, 2107.0),
        new("R-407C", 86.20, "A1", 1000, 81000, null, 1773.8),
        new("R-407F", 82.06, "A1", 1000, 95000, null, 1824.5),
        new("R-410A", 72.58, "A1", 1000, 140000, null, 2087.5),
        new("R-448A", 86.28, "A1", 860, 110000, null, 1387.1),
        new("R-449A", 87.21, "A1", 830, 100000, null, 1397.0),
        new("R-507A", 98.86, "A1", 1000, 130000, null, 3985.0),
        new("R-513A", 108.42, "A1", 650, 72000, null, 631.4),
        new("R-450A", 108.67, "A1", 880, 72000, null, 604.7),
        new("R-454A", 80.47, "A2L", 690, 16000, 84000, 238.9),
        new("R-454C", 90.77, "A2L", 615, 19000, 78400, 148.3),
        new("R-455A", 87.45, "A2L", 650, 30000, 118300, 148.2),
        new("R-290", 44.10, "A3", 1000, 5300, 21100, 3),
        new("R-600a", 58.12, "A3", 1000, 4000, 18100, 3),
        new("R-717", 17.03, "B2L", 25, 320, 166500, 0),
        new("R-744", 44.01, "A1", 5000, 30000, null, 1),
        new("R-1234yf", 114.04, "A2L", 500, 16000, 62000, 4),
        new("R-1234ze(E)", 114.04, "A2L", 800, 16000, 65000, 7),
        new("R-32", 52.02, "A2L", 1000, 36000, 144300, 675),
        new("R-152a", 66.05, "A2", 1000, 12000, 48100, 124),
    ];

    /// <summary>The refrigerant with a designation, however people write it: <c>R-448A</c>, <c>R448a</c>, <c>448A</c>, <c>CO2</c>; null when unknown.</summary>
    public static Refrigerant? Find(string? name)
    {
        if (name is null) return null;
        var key = Key(name);
        return All.FirstOrDefault(r => Key(r.Name) == key);
    }

    /// <summary>Molar volume at 25 °C and 101.325 kPa, litres per mole, as the trade's conversion tables use it.</summary>
    public const double MolarVolume25C = 24.45;

    /// <summary>Milligrams per cubic metre of a concentration at 25 °C: ppm · M / 24.45.</summary>
    public double MilligramsPerCubicMetre(double ppm) => ppm * MolarMass / MolarVolume25C;

    // Upper case, no spaces or dashes, no leading R, no isomer in brackets; a few everyday names.
    private static string Key(string name)
    {
        var plain = name.ToUpperInvariant().Replace(" ", "", StringComparison.Ordinal).Replace("-", "", StringComparison.Ordinal)
            .Replace("(E)", "", StringComparison.Ordinal);
        return plain switch
        {
            "CO2" => "744",
            "NH3" or "AMMONIA" => "717",
            "PROPANE" => "290",
            "ISOBUTANE" => "600A",
            ['R', .. var number] => number,
            _ => plain,
        };
    }
}
