namespace StoreMap.Fields;

/// <summary>The values a field is computed with.</summary>
/// <param name="Range">Metres.</param>
/// <param name="Spread">Deviation of the log level.</param>
/// <param name="Turbulence">Share by which a reading scatters.</param>
/// <param name="Base">Log level where nothing is known.</param>
internal readonly record struct FieldValues(double Range, double Spread, double Turbulence, double Base)
{
    /// <summary>The values of the settings.</summary>
    public static FieldValues Of(FieldSettings settings) =>
        new(settings.RangeMetres, settings.Spread, settings.Turbulence, settings.BaseLevel);
}
