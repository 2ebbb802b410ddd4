using System.Globalization;

namespace StoreMap.Sheets;

/// <summary>An sRGB colour, eight bits a channel.</summary>
/// <param name="R">Red.</param>
/// <param name="G">Green.</param>
/// <param name="B">Blue.</param>
internal readonly record struct Colour(byte R, byte G, byte B)
{
    /// <summary>The colour as <c>#rrggbb</c>.</summary>
    public string Hex => string.Create(CultureInfo.InvariantCulture, $"#{R:x2}{G:x2}{B:x2}");

    /// <summary>Relative luminance in [0, 1] as WCAG 2.2 defines it.</summary>
    public double Luminance => (0.2126 * Linear(R)) + (0.7152 * Linear(G)) + (0.0722 * Linear(B));

    /// <summary>A colour from <c>#rrggbb</c>.</summary>
    public static Colour Parse(string hex)
    {
        var value = int.Parse(hex.AsSpan(1), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        return new Colour((byte)(value >> 16), (byte)(value >> 8), (byte)value);
    }

    /// <summary>Contrast ratio of two colours, [1, 21] (WCAG 2.2).</summary>
    public static double Contrast(Colour a, Colour b)
    {
        double high = Math.Max(a.Luminance, b.Luminance), low = Math.Min(a.Luminance, b.Luminance);
        return (high + 0.05) / (low + 0.05);
    }

    private static double Linear(byte channel)
    {
        var c = channel / 255.0;
        return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
    }
}
