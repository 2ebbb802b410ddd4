using System.Globalization;

namespace StoreMap;

/// <summary>Distances along a case as people are told them on screens: one place is the same distance wherever it is spoken of, also in the
/// words of a leak zone.</summary>
public static class LengthWords
{
    /// <summary>From here on a distance is told in whole feet, metres.</summary>
    private const double Far = 3;

    /// <summary>A distance, such as <c>4 ft 6 in</c>, <c>14 ft</c> or <c>4.3 m</c>: to the half foot, from 3 m on to the foot, or to the decimetre.</summary>
    /// <param name="unit">Unit in which it is told: feet and inches for feet or inches, else metres.</param>
    /// <param name="metres">The distance, at least 0.</param>
    public static string Of(LengthUnit unit, double metres)
    {
        if (!unit.IsCustomary()) return Stepped(metres, 0.1).ToString("0.0", CultureInfo.InvariantCulture) + " m";
        var feet = Stepped(metres / LengthUnits.MetresPerFoot, metres < Far ? 0.5 : 1);
        var whole = Math.Floor(feet);
        return string.Create(CultureInfo.InvariantCulture, $"{whole:0} ft{(feet > whole ? " 6 in" : "")}");
    }

    // A place that was kept with four decimals is rounded to the side to which it was before.
    private static double Stepped(double value, double step) => Math.Round(Math.Round(value, 4) / step) * step;
}
