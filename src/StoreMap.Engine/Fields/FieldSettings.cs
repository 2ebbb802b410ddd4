using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>How the heat map is computed. Immutable; the defaults stand here. Method and sources: docs/field.md.</summary>
public sealed record FieldSettings
{
    /// <summary>Side of a cell, metres, in [0.01, 5]. The default is 0.25 m.</summary>
    public double CellMetres { get; init; } = 0.25;

    /// <summary>Readings in this air state make the map. The default is fans on; where there is none, the state with most readings.</summary>
    public AirState Air { get; init; } = AirState.FansOn;

    /// <summary>True to estimate range, spread, turbulence and base level from the readings, within the bounds of docs/field.md; false, or
    /// fewer than <see cref="FewestReadings"/> readings, to take the values below. The default is true.</summary>
    public bool Estimate { get; init; } = true;

    /// <summary>Fewest readings from which the values below are estimated. The default is 12.</summary>
    public int FewestReadings { get; init; } = 12;

    /// <summary>Range, metres: where the correlation has fallen to 0.14. The default is 4 m.</summary>
    public double RangeMetres { get; init; } = 4;

    /// <summary>Spread of the log level over the store (its standard deviation). The default is 2: a factor of 7 either way.</summary>
    public double Spread { get; init; } = 2;

    /// <summary>Scatter of a reading about the level of its place, made by turbulence, as a share of the level. The default is 0.1.</summary>
    public double Turbulence { get; init; } = 0.1;

    /// <summary>Log level where nothing is known. The default is 0: the room's background.</summary>
    public double BaseLevel { get; init; }

    /// <summary>A cell is coloured only where one of the readings, taken as a plain number, would take away at least this share of what is
    /// not known (the prior variance), in (0, 1]. The default is 0.3: within 0.40 ranges of a reading, through the air.</summary>
    public double LeastInformation { get; init; } = 0.3;

    /// <summary>Sweeps over the censored readings end when none moves the level by more than this share of its deviation, in (0, 1]. The
    /// default is 0.0001.</summary>
    public double Settled { get; init; } = 1e-4;

    /// <summary>Width of the strip coloured along a probed front and around a reading on the open floor, metres. The default is 1.2 m.</summary>
    public double StripMetres { get; init; } = 1.2;

    /// <summary>True to colour all floor that the readings speak for, not only strips and probed rooms. The default is false.</summary>
    public bool OpenFloor { get; init; }
}
