namespace StoreMap.Sheets;

/// <summary>The published perceptual maps a concentration may be drawn in.</summary>
public enum ColourMapKind
{
    /// <summary>Cividis: dark blue to yellow, the same to all common colour visions.</summary>
    Cividis,

    /// <summary>Viridis: dark violet over green to yellow.</summary>
    Viridis,
}

/// <summary>Perceptual colour maps, dark at 0 and light at 1, luminance rising all the way.
/// Cividis: polynomials fitted to the map of Nuñez, Anderton and Renslow (PLoS ONE 13, 2018), as published with d3-scale-chromatic.
/// Viridis: the table of Smith and van der Walt (CC0).</summary>
internal static class ColourMap
{
    private static readonly double[] CividisRed = [-4.54, -35.34, 2381.73, -6402.7, 7024.72, -2710.57];
    private static readonly double[] CividisGreen = [32.49, 170.73, 52.82, -131.46, 176.58, -67.37];
    private static readonly double[] CividisBlue = [81.24, 442.36, -2482.43, 6167.24, -6614.94, 2475.67];

    /// <summary>The map's colour at a place.</summary>
    /// <param name="kind">Which map.</param>
    /// <param name="t">Place in [0, 1]; clamped.</param>
    public static Colour At(ColourMapKind kind, double t)
    {
        t = Math.Clamp(t, 0, 1);
        if (kind == ColourMapKind.Viridis) return ViridisTable.At((int)Math.Round(t * 255));
        return new Colour(Polynomial(CividisRed, t), Polynomial(CividisGreen, t), Polynomial(CividisBlue, t));
    }

    private static byte Polynomial(double[] coefficients, double t)
    {
        var sum = 0.0;
        for (var i = coefficients.Length - 1; i >= 0; i--) sum = (sum * t) + coefficients[i];
        return (byte)Math.Clamp(Math.Round(sum), 0, 255);
    }
}
