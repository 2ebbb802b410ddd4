using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.App.Documents;

/// <summary>Values as documents carry them: lengths in the user's unit, rounded to a micrometre so that they are free of
/// conversion dust; weights in pounds; dates as ISO 8601.</summary>
internal sealed class UnitsOut(LengthUnit unit)
{
    private readonly int digits = unit == LengthUnit.Millimetre ? 3 : 6;

    public double Length(double metres) => Math.Round(unit.FromMetres(metres), digits);

    public JsonArray Point(PlanPoint p) => [Length(p.X), Length(p.Y)];

    public static double Pounds(double kilograms) => Math.Round(kilograms / LengthUnits.KilogramsPerPound, 2);

    public static string Day(DateOnly date) => date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static JsonArray Strings(IEnumerable<string> items) => new([.. items.Select(i => JsonValue.Create(i))]);
}
