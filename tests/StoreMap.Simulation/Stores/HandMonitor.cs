namespace StoreMap.Simulation.Stores;

/// <summary>A hand-held monitor read while the survey goes on: late, slow, noisy, drifting, rounded, limited at both ends.</summary>
public sealed class HandMonitor
{
    private readonly SeededNoise noise;
    private readonly double[] line = new double[32];
    private double level;
    private double drift;
    private long seconds;

    /// <summary>Draws a monitor.</summary>
    public HandMonitor(SeededNoise noise)
    {
        this.noise = noise;
        DelaySeconds = Math.Clamp(5 + (0.8 * noise.Normal()), 2, 9);
        T90Seconds = noise.LogBetween(3, 9);
        NoisePpm = noise.Between(0.1, 0.35);
        var fine = noise.Chance(0.3);
        StepPpm = fine ? 0.1 : 1;
        DetectionPpm = fine ? 0.5 : 1;
        RangePpm = noise.Chance(0.2) ? 200 : 1000;
        Gain = noise.LogNormal(1, 0.05);
    }

    /// <summary>Seconds from tip to sensor.</summary>
    public double DelaySeconds { get; init; }

    /// <summary>Seconds from 0 to 90 % of a step.</summary>
    public double T90Seconds { get; init; }

    /// <summary>Noise of the sensor, ppm.</summary>
    public double NoisePpm { get; init; }

    /// <summary>Smallest step shown, ppm.</summary>
    public double StepPpm { get; init; }

    /// <summary>Below this the display shows 0, ppm.</summary>
    public double DetectionPpm { get; init; }

    /// <summary>Top of the range, ppm.</summary>
    public double RangePpm { get; init; }

    /// <summary>Shown over true.</summary>
    public double Gain { get; init; }

    /// <summary>Zero drift over an hour, ppm (deviation).</summary>
    public double DriftPpmPerHour { get; init; } = 0.3;

    /// <summary>Seconds after which a held tip is nearly fully shown.</summary>
    public double SettleSeconds => DelaySeconds + (1.5 * T90Seconds);

    /// <summary>Draws air in for a second.</summary>
    /// <param name="tipPpm">ppm at the tip.</param>
    /// <returns>What the sensor holds, ppm.</returns>
    public double Draw(double tipPpm)
    {
        line[seconds % line.Length] = tipPpm;
        var whole = (int)DelaySeconds;
        var part = DelaySeconds - whole;
        var arriving = ((1 - part) * Past(whole)) + (part * Past(whole + 1));
        var keep = Math.Exp(-Math.Log(10) / T90Seconds);
        level = (keep * level) + ((1 - keep) * arriving);
        drift += DriftPpmPerHour / 60 * noise.Normal();
        seconds++;
        return (Gain * level) + drift + (NoisePpm * noise.Normal());
    }

    /// <summary>What the display says.</summary>
    public string Display(double ppm)
    {
        if (ppm > RangePpm) return FormattableString.Invariant($">{RangePpm:0}");
        var shown = Math.Round(ppm / StepPpm) * StepPpm;
        return shown < DetectionPpm ? "0" : FormattableString.Invariant($"{shown:0.##}");
    }

    private double Past(int ago) => ago > seconds ? line[0] : line[(seconds - ago) % line.Length];
}
