namespace StoreMap.Surveys;

/// <summary>How a log is put in place. Immutable; the defaults stand here.</summary>
public sealed record LogSettings
{
    /// <summary>Dwell taken where the place does not say, seconds. The default of 10 s is the protocol's.</summary>
    public double DwellSeconds { get; init; } = 10;

    /// <summary>Seconds after a mark that do not count: the hand is still moving. The default is 1 s.</summary>
    public double ArriveSeconds { get; init; } = 1;

    /// <summary>Length of walk that one reading of a steady walk stands for, metres. The default is 2 ft.</summary>
    public double WalkStepMetres { get; init; } = 2 * LengthUnits.MetresPerFoot;

    /// <summary>Noise of the sensor before rounding, ppm. The default is 0.3 ppm, that of the reference logs of the tests.</summary>
    public double SensorNoisePpm { get; init; } = 0.3;
}
