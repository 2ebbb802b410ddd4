namespace StoreMap.Surveys;

/// <summary>How a continuous log is put in place. Defaults are explained in docs/readings.md.</summary>
public sealed record LogAlignOptions
{
    /// <summary>True when the monitor's delay is known for this sampling line and must not be replaced by one found in the log.
    /// <value>The default is false: line-ups walked both ways give the delay.</value></summary>
    public bool DelayKnown { get; init; }

    /// <summary>Seconds to add to the marks' times to bring them onto the log's clock. <value>The default is 0.</value></summary>
    public double ClockOffsetSeconds { get; init; }

    /// <summary>True to estimate the offset of the marks' clock: the lag found in the log, from line-ups walked both ways or else from the
    /// rises at the marks, less the monitor's delay. <value>The default is false.</value></summary>
    public bool EstimateClock { get; init; }

    /// <summary>A walk gives one reading for each stretch of this length, metres, greater than 0. <value>The default is 0.3 (1 ft).</value></summary>
    public double StepMetres { get; init; } = 0.3;

    /// <summary>How long the probe is taken to be held at a mark that no other mark ends, seconds. <value>The default is 20.</value></summary>
    public double DwellSeconds { get; init; } = 20;
}
