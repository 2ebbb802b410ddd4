namespace StoreMap.Simulation;

/// <summary>A hand-held monitor with its sampling line: late, slow, rounded, limited, drifting.</summary>
public sealed record SimulatedMonitor
{
    /// <summary>Seconds from the tip to the sensor.</summary>
    public double DelaySeconds { get; init; } = 5;

    /// <summary>Seconds from 0 to 90 % of a step.</summary>
    public double T90Seconds { get; init; } = 5;

    /// <summary>Noise of the sensor, ppm.</summary>
    public double NoisePpm { get; init; } = 0.25;

    /// <summary>Zero drift over an hour, ppm (deviation).</summary>
    public double DriftPpmPerHour { get; init; } = 0.2;

    /// <summary>Detection limit and display step, ppm.</summary>
    public double StepPpm { get; init; } = 1;

    /// <summary>Top of the range, ppm.</summary>
    public double RangePpm { get; init; } = 1000;

    /// <summary>Turns the truth at the tip, one value a second, into what the sensor holds, one value a second.</summary>
    /// <param name="tip">ppm at the tip, 1 Hz.</param>
    /// <param name="noise">Source of chance.</param>
    public double[] Respond(double[] tip, SeededNoise noise)
    {
        var shown = new double[tip.Length];
        var keep = Math.Exp(-Math.Log(10) / T90Seconds);
        double level = 0, drift = 0;
        for (var i = 0; i < tip.Length; i++)
        {
            // Gas drawn in DelaySeconds ago; a fraction of a second by linear interpolation.
            var late = Math.Max(0, i - DelaySeconds);
            var k = (int)late;
            var arriving = tip[k] + ((tip[Math.Min(k + 1, tip.Length - 1)] - tip[k]) * (late - k));
            level = (keep * level) + ((1 - keep) * arriving);
            drift += DriftPpmPerHour / 60 * noise.Normal();
            shown[i] = level + drift + (NoisePpm * noise.Normal());
        }

        return shown;
    }

    /// <summary>What the display says: a whole number of steps, <c>&gt;range</c> over range.</summary>
    public string Display(double ppm) => ppm > RangePpm
        ? FormattableString.Invariant($">{RangePpm:0}")
        : FormattableString.Invariant($"{Math.Max(0, Math.Round(ppm / StepPpm) * StepPpm):0.##}");
}
