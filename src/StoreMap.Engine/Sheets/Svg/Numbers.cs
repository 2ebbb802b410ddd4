using System.Globalization;

namespace StoreMap.Sheets;

/// <summary>Numbers as sheets print them: always with a decimal point.</summary>
internal static class Numbers
{
    /// <summary>A sheet coordinate, to 0.01 mm, without trailing zeros.</summary>
    /// <remarks>A sheet has ten thousands of them: by whole hundredths, which a browser's interpreter writes many times faster than fractions.</remarks>
    public static string Coordinate(double millimetres)
    {
        var hundredths = (long)Math.Round(millimetres * 100, MidpointRounding.AwayFromZero);
        var (whole, rest) = Math.DivRem(Math.Abs(hundredths), 100);
        var sign = hundredths < 0 ? "-" : "";
        var digits = whole.ToString(CultureInfo.InvariantCulture);
        if (rest == 0) return sign + digits;
        var fraction = rest % 10 == 0 ? rest / 10 : rest;
        return string.Concat(sign, digits, rest < 10 ? ".0" : ".", fraction.ToString(CultureInfo.InvariantCulture));
    }

    /// <summary>A number with a fixed count of decimals.</summary>
    public static string Fixed(double value, int decimals)
    {
        var text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.AsSpan().IndexOfAnyInRange('1', '9') < 0 ? text[1..] : text;
    }

    /// <summary>A whole number.</summary>
    public static string Whole(double value) => Fixed(Math.Round(value, MidpointRounding.AwayFromZero), 0);

    /// <summary>A concentration: one decimal below 10 ppm when there is one, whole above.</summary>
    public static string Ppm(double ppm)
    {
        var rounded = Math.Round(ppm, 1, MidpointRounding.AwayFromZero);
        return Math.Abs(rounded) < 10 && rounded != Math.Round(rounded) ? Fixed(rounded, 1) : Whole(ppm);
    }
}
