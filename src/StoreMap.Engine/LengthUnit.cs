namespace StoreMap;

/// <summary>The unit of every length in a layout file and in what is printed from it. Inside, all lengths are metres.</summary>
public enum LengthUnit
{
    /// <summary>Metre.</summary>
    Metre,

    /// <summary>International foot, 0.3048 m exactly.</summary>
    Foot,

    /// <summary>Inch, 0.0254 m exactly.</summary>
    Inch,

    /// <summary>Millimetre.</summary>
    Millimetre,
}

/// <summary>Exact conversions between the user's unit and metres (international yard and pound agreement, 1959).</summary>
public static class LengthUnits
{
    /// <summary>Metres in one foot.</summary>
    public const double MetresPerFoot = 0.3048;

    /// <summary>Kilograms in one avoirdupois pound.</summary>
    public const double KilogramsPerPound = 0.45359237;

    /// <summary>Metres in one of the given unit.</summary>
    public static double InMetres(this LengthUnit unit) => unit switch
    {
        LengthUnit.Metre => 1,
        LengthUnit.Foot => MetresPerFoot,
        LengthUnit.Inch => 0.0254,
        LengthUnit.Millimetre => 0.001,
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "Unknown length unit."),
    };

    /// <summary>The symbol used in layout files and on sheets: m, ft, in, mm.</summary>
    public static string Symbol(this LengthUnit unit) => unit switch
    {
        LengthUnit.Metre => "m",
        LengthUnit.Foot => "ft",
        LengthUnit.Inch => "in",
        LengthUnit.Millimetre => "mm",
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "Unknown length unit."),
    };

    /// <summary>The unit a symbol stands for; null when it is none of m, ft, in, mm.</summary>
    public static LengthUnit? FromSymbol(string? symbol) => symbol switch
    {
        "m" => LengthUnit.Metre,
        "ft" => LengthUnit.Foot,
        "in" => LengthUnit.Inch,
        "mm" => LengthUnit.Millimetre,
        _ => null,
    };

    /// <summary>True for feet and inches, with which weights go in pounds.</summary>
    public static bool IsCustomary(this LengthUnit unit) => unit is LengthUnit.Foot or LengthUnit.Inch;

    /// <summary>Converts metres to the unit, without rounding.</summary>
    public static double FromMetres(this LengthUnit unit, double metres) => metres / unit.InMetres();
}
