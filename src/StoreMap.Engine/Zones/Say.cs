using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Words and numbers for people, in the plan's unit.</summary>
internal static class Say
{
    /// <summary>A distance such as <c>14 ft</c>, no finer than half a foot or a tenth of a metre.</summary>
    public static string Distance(double metres, LengthUnit unit) => Number(LengthWords.Stepped(unit, metres)) + (unit.IsCustomary() ? " ft" : " m");

    /// <summary>A ppm value with two digits at least as fine as a monitor shows.</summary>
    public static string Ppm(double ppm) => Number(ppm < 10 ? Math.Round(ppm, 1) : Math.Round(ppm)) + " ppm";

    /// <summary>A number without trailing zeros.</summary>
    public static string Number(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>What people call a fixture.</summary>
    public static string Name(Fixture fixture) => fixture.Tag;
}
