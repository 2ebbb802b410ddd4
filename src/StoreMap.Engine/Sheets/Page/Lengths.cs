using System.Globalization;
namespace StoreMap.Sheets;

/// <summary>Lengths and weights as people read them, in the store's own units.</summary>
internal static class Lengths
{
    /// <summary>A tape distance, no finer than the interval it comes from: feet and inches, or metres.</summary>
    /// <param name="units">The user's unit.</param>
    /// <param name="metres">The distance, at least 0.</param>
    /// <param name="uncertainMetres">Half width of the interval: under 0.3 m prints inches or centimetres in steps of 3 in or 5 cm,
    /// under 1 m half feet or decimetres, else whole feet or half metres.</param>
    public static string Tape(LengthUnit units, double metres, double uncertainMetres)
    {
        if (!units.IsCustomary())
        {
            var step = uncertainMetres < 0.3 ? 0.05 : uncertainMetres < 1 ? 0.1 : 0.5;
            return Numbers.Fixed(Math.Round(metres / step) * step, step < 0.1 ? 2 : 1) + " m";
        }

        var inches = metres / LengthUnit.Inch.InMetres();
        var stepInches = uncertainMetres < 0.3 ? 3.0 : uncertainMetres < 1 ? 6 : 12;
        return FeetAndInches(Math.Round(inches / stepInches) * stepInches);
    }

    /// <summary>A length of the plan, to the inch or the centimetre.</summary>
    public static string Plain(LengthUnit units, double metres) => units.IsCustomary()
        ? FeetAndInches(Math.Round(metres / LengthUnit.Inch.InMetres()))
        : Numbers.Fixed(metres, 2) + " m";

    /// <summary>A long way, to the foot or the metre.</summary>
    public static string Rough(LengthUnit units, double metres) => units.IsCustomary()
        ? Numbers.Whole(LengthUnit.Foot.FromMetres(metres)) + " ft"
        : Numbers.Whole(metres) + " m";

    /// <summary>A weight: pounds or kilograms, two significant digits.</summary>
    public static string Weight(LengthUnit units, double kilograms)
    {
        var value = units.IsCustomary() ? kilograms / LengthUnits.KilogramsPerPound : kilograms;
        return TwoDigits(value) + (units.IsCustomary() ? " lb" : " kg");
    }

    /// <summary>A charge as it was entered, to a hundredth: what the law's percentages are of.</summary>
    public static string Charge(LengthUnit units, double kilograms) =>
        (units.IsCustomary() ? kilograms / LengthUnits.KilogramsPerPound : kilograms).ToString("0.##", CultureInfo.InvariantCulture) + (units.IsCustomary() ? " lb" : " kg");

    /// <summary>A number to two significant digits, without exponent.</summary>
    public static string TwoDigits(double value)
    {
        if (value == 0 || !double.IsFinite(value)) return "0";
        var magnitude = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        var unit = Math.Pow(10, magnitude - 1);
        var rounded = Math.Round(value / unit) * unit;
        return Numbers.Fixed(rounded, Math.Max(0, 1 - (int)Math.Floor(Math.Log10(Math.Abs(rounded)) + 1e-9)));
    }

    private static string FeetAndInches(double inches)
    {
        var feet = Math.Floor(inches / 12);
        return Numbers.Whole(feet) + "'-" + Numbers.Whole(inches - (12 * feet)) + "\"";
    }
}
