namespace StoreMap.Surveys;

/// <summary>A change of a concentration at a moment: a jump, and a change of its slope from then on.</summary>
/// <param name="Seconds">When.</param>
/// <param name="JumpPpm">Step, ppm.</param>
/// <param name="SlopeChange">Change of slope, ppm per second.</param>
public readonly record struct SignalEvent(double Seconds, double JumpPpm, double SlopeChange = 0);

/// <summary>A sampling line and sensor: what enters the tip reaches the sensor after a delay, and the number follows it as a first-order
/// lag, T dy/dt + y = u(t − delay), with T = T90/ln 10.</summary>
/// <param name="DelaySeconds">Seconds from tip to sensor, at least 0.</param>
/// <param name="T90Seconds">Seconds from 0 to 90 % of a step, the delay not included, at least 0; 0 follows at once.</param>
/// <remarks>Exact for inputs made of straight pieces and jumps. Source: docs/readings.md.</remarks>
public sealed record SensorModel(double DelaySeconds, double T90Seconds)
{
    /// <summary>The lag's time constant T, seconds: T90/ln 10.</summary>
    public double TimeConstant { get; } = T90Seconds / Math.Log(10);

    /// <summary>The model of an instrument.</summary>
    public static SensorModel Of(Instrument instrument) => new(instrument.DelaySeconds, instrument.T90Seconds);

    /// <summary>What the monitor shows at a moment, ppm, when the concentration at the tip rested at a level and then changed.</summary>
    /// <param name="basePpm">Level before the first change.</param>
    /// <param name="events">Changes, in any order.</param>
    /// <param name="seconds">The moment, on the clock of the events.</param>
    public double Respond(double basePpm, IReadOnlyList<SignalEvent> events, double seconds)
    {
        var shown = basePpm;
        foreach (var e in events)
        {
            var since = seconds - DelaySeconds - e.Seconds;
            if (since <= 0) continue;
            var rise = Risen(since);
            shown += (e.JumpPpm * rise) + (e.SlopeChange * (since - (TimeConstant * rise)));
        }

        return shown;
    }

    /// <summary>The part of a step that shows some time after it reached the sensor, in [0, 1).</summary>
    /// <param name="seconds">Seconds since, at least 0.</param>
    public double Risen(double seconds) => TimeConstant > 0 ? -double.ExpM1(-seconds / TimeConstant) : 1;

    /// <summary>The lag alone over a sampled concentration that runs straight from sample to sample: what the sensor shows at the same
    /// samples when it has come to rest at the first. The delay is a shift of the clock and left to the caller.</summary>
    /// <param name="seconds">Sample times (N), ascending.</param>
    /// <param name="ppm">Concentration at the sensor (N).</param>
    /// <returns>The number shown (N).</returns>
    public double[] Lag(IReadOnlyList<double> seconds, IReadOnlyList<double> ppm)
    {
        var shown = new double[ppm.Count];
        if (shown.Length > 0) shown[0] = ppm[0];
        for (var i = 1; i < shown.Length; i++)
        {
            var dt = seconds[i] - seconds[i - 1];
            if (TimeConstant <= 0 || dt <= 0)
            {
                shown[i] = TimeConstant <= 0 ? ppm[i] : shown[i - 1];
                continue;
            }

            // Behind a straight ramp the lag runs parallel, slope · T late; the rest dies away.
            var late = (ppm[i] - ppm[i - 1]) / dt * TimeConstant;
            shown[i] = ppm[i] - late + ((shown[i - 1] - ppm[i - 1] + late) * Math.Exp(-dt / TimeConstant));
        }

        return shown;
    }

    /// <summary>How much later than its true peak the lag shows the peak of a two-sided exponential exp(−|t|/a), seconds, the delay not
    /// included: a T/(a − T) · ln(2a/(a + T)). Between T/2 for a = T and T ln 2 for a much longer: a peak is moved less than a centroid,
    /// which moves by T.</summary>
    /// <param name="widthSeconds">a: the seconds in which the probe crosses the profile's 1/e length; greater than 0.</param>
    public double PeakShift(double widthSeconds)
    {
        double a = widthSeconds, t = TimeConstant;
        // Near a = T the formula is 0/0: its series about there.
        if (Math.Abs(a - t) < 1e-4 * t) return t * (0.5 + ((a - t) / t * 0.125));
        return a * t / (a - t) * Math.Log(2 * a / (a + t));
    }

    /// <summary>Factor by which undoing the lag sample by sample would multiply the noise: √(1 + b²)/(1 − b), b = exp(−dt/T). Why the log
    /// is never undone that way.</summary>
    /// <param name="stepSeconds">Seconds between samples, greater than 0.</param>
    public double DirectInverseNoiseGain(double stepSeconds)
    {
        var b = TimeConstant > 0 ? Math.Exp(-stepSeconds / TimeConstant) : 0;
        return Math.Sqrt(1 + (b * b)) / (1 - b);
    }
}
