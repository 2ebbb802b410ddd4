using System.Globalization;

namespace StoreMap;

/// <summary>Distances along a case as people are told them on screens: one place is the same distance wherever it is spoken of, also in the
/// words of a leak zone.</summary>
public static class LengthWords
{
    /// <summary>A distance, such as <c>4 ft 6 in</c>, <c>14 ft</c> or <c>4.3 m</c>: to the half foot or to the decimetre.</summary>
    /// <param name="unit">Unit in which it is told: feet and inches for feet or inches, else metres.</param>
    /// <param name="metres">The distance, at least 0.</param>
    public static string Of(LengthUnit unit, double metres)
    {
        var value = Stepped(unit, metres);
        if (!unit.IsCustomary()) return value.ToString("0.0", CultureInfo.InvariantCulture) + " m";
        var whole = Math.Floor(value);
        return string.Create(CultureInfo.InvariantCulture, $"{whole:0} ft{(value > whole ? " 6 in" : "")}");
    }

    /// <summary>A distance to the step in which people are told it: the half foot, in which coarse probe points lie, or the decimetre.</summary>
    /// <param name="unit">Unit in which it is told.</param>
    /// <param name="metres">The distance, at least 0.</param>
    /// <returns>Feet for a customary unit, else metres.</returns>
    internal static double Stepped(LengthUnit unit, double metres)
    {
        var (value, step) = unit.IsCustomary() ? (metres / LengthUnits.MetresPerFoot, 0.5) : (metres, 0.1);
        // A place that was kept with four decimals is rounded to the side to which it was before.
        return Math.Round(Math.Round(value, 4) / step, MidpointRounding.AwayFromZero) * step;
    }
}
