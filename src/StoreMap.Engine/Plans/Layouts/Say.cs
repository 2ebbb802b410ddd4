using System.Globalization;

namespace StoreMap.Plans;

/// <summary>Lengths and places as messages say them: in the layout's unit, to a thousandth.</summary>
internal static class Say
{
    /// <summary>A length with its unit, such as <c>12.5 ft</c>.</summary>
    public static string Length(double metres, LengthUnit unit) => $"{Number(unit.FromMetres(metres))} {unit.Symbol()}";

    /// <summary>A place without its unit, as in the file, such as <c>[12.5, 0]</c>.</summary>
    public static string Place(PlanPoint p, LengthUnit unit) => $"[{Number(unit.FromMetres(p.X))}, {Number(unit.FromMetres(p.Y))}]";

    /// <summary>A number to a thousandth, decimal point.</summary>
    public static string Number(double value)
    {
        // Adding zero turns the minus zero that rounding leaves into a plain one.
        return (Math.Round(value, 3) + 0.0).ToString("0.###", CultureInfo.InvariantCulture);
    }
}
