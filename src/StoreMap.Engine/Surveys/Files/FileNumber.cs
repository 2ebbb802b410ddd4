using System.Globalization;

namespace StoreMap.Surveys;

/// <summary>Writes a length so that reading it back gives the same metres.</summary>
internal static class FileNumber
{
    private static readonly string[] Forms = ["G9", "G12", "G15", "G16", "R"];

    /// <summary>The shortest of a few roundings that comes back as the same metres; the nearest number when none does.</summary>
    /// <param name="metres">Any finite length.</param>
    /// <param name="unit">The file's unit.</param>
    public static double InUnit(double metres, LengthUnit unit)
    {
        var exact = unit.FromMetres(metres);
        foreach (var form in Forms)
        {
            var rounded = double.Parse(exact.ToString(form, CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
            if (rounded * unit.InMetres() == metres) return rounded;
        }

        // Not every length is a multiple of the unit's double: a neighbour may be.
        if (Math.BitIncrement(exact) * unit.InMetres() == metres) return Math.BitIncrement(exact);
        if (Math.BitDecrement(exact) * unit.InMetres() == metres) return Math.BitDecrement(exact);
        return exact;
    }
}
