namespace StoreMap.Fields;

/// <summary>What the field was computed with, and its log level: g = ln(1 + n / scale) for the net ppm n.</summary>
public sealed record FieldFit
{
    /// <summary>The scale, ppm: the usual detection level of the readings used.</summary>
    public required double ScalePpm { get; init; }

    /// <summary>Range, metres: where the correlation has fallen to 0.14.</summary>
    public required double RangeMetres { get; init; }

    /// <summary>Spread of the log level over the store (its standard deviation).</summary>
    public required double Spread { get; init; }

    /// <summary>Scatter of a reading about the level of its place, as a share.</summary>
    public required double Turbulence { get; init; }

    /// <summary>Log level where nothing is known.</summary>
    public required double BaseLevel { get; init; }

    /// <summary>True when the four values were estimated from the readings.</summary>
    public required bool Estimated { get; init; }

    /// <summary>Readings used.</summary>
    public required int Readings { get; init; }

    /// <summary>Mean of the log level per cell; NaN in solid cells.</summary>
    public required double[] Level { get; init; }

    /// <summary>Standard deviation of the log level per cell; NaN in solid cells.</summary>
    public required double[] LevelDeviation { get; init; }

    /// <summary>The net ppm that the level of a cell stays below with a given probability.</summary>
    /// <param name="cell">Cell of the field's grid.</param>
    /// <param name="probability">In (0, 1); 0.5 gives the median.</param>
    /// <returns>Net ppm, at least 0; NaN in solid cells.</returns>
    public double QuantilePpm(int cell, double probability) =>
        LevelMoments.Ppm(Level[cell] + (LevelDeviation[cell] * LevelMoments.NormalQuantile(probability)), ScalePpm);
}
