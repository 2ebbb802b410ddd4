using System.Runtime.CompilerServices;

namespace StoreMap.Zones;

/// <summary>Air of a line-up in which the fans stopped some time ago: a leak's trace builds up and widens from then on, over what is
/// left of the trace the fans had spread.</summary>
/// <remarks>c_t = D c_xx - u c_x - k c + source on the axis' cells, implicit in time with growing steps, transposed, so that one run
/// gives what a reading shows for a source in every cell. Strength 1 is the source whose peak would be 1 ppm
/// <see cref="UnitSeconds"/> after the stop in endless calm air.</remarks>
internal static class StillAir
{
    /// <summary>Seconds after the stop at which strength 1 peaks at 1 ppm.</summary>
    public const double UnitSeconds = 150;

    /// <summary>Loss of still air to the aisle, 1/s.</summary>
    public const double Loss = 0.0015;

    /// <summary>Metres of still air that a section end is worth at blocking 1.</summary>
    private const double BlockingMetres = 0.5;

    private const double FirstStep = 1.5;
    private const double Growth = 1.25;

    /// <summary>What a reading shows for a source of strength 1 in each cell of what has leaked since the fans stopped.</summary>
    /// <param name="axis">The line-up.</param>
    /// <param name="setting">The air.</param>
    /// <param name="s">Place of the reading, metres along the axis.</param>
    /// <param name="seconds">Since the fans stopped.</param>
    /// <param name="response">Filled with one value per cell.</param>
    /// <param name="loss">Loss to the aisle, 1/s, above 0.</param>
    public static void BuildUp(LineUpAxis axis, AirSetting setting, double s, double seconds, Span<double> response, double loss = Loss)
    {
        var n = axis.Count;
        var (toRight, toLeft) = Exchange(axis, setting);
        var w = new double[n];
        axis.Spread(s, w);
        for (var i = 0; i < n; i++) w[i] /= axis.Widths[i];
        response.Clear();
        var step = FirstStep;
        for (var t = 0.0; t < seconds; t += step, step *= Growth)
        {
            step = Math.Min(step, seconds - t);
            Step(axis, toRight, toLeft, step, loss, w);
            for (var i = 0; i < n; i++) response[i] += step * w[i];
            if (seconds - t - step < 1e-9) break;
        }

        var unit = UnitPeak(setting.StillDispersion, loss);
        for (var i = 0; i < n; i++) response[i] /= unit;
    }

    /// <summary>What has leaked since the fans stopped over what is left of the trace they had spread.</summary>
    public static void Join(ReadOnlySpan<double> builtUp, ReadOnlySpan<double> rest, double pedestal, double seconds, Span<double> response, double loss = Loss)
    {
        var left = pedestal * Math.Exp(-loss * (seconds - UnitSeconds));
        for (var i = 0; i < response.Length; i++) response[i] = builtUp[i] + (left * rest[i]);
    }

    /// <summary>Peak, ppm, of a source of 1 ppm m³/s for a square metre of cross-section, <see cref="UnitSeconds"/> after the stop.</summary>
    public static double UnitPeak(double dispersion, double loss = Loss) =>
        NormalLaw.ErrorFunction(Math.Sqrt(loss * UnitSeconds)) / (2 * Math.Sqrt(dispersion * loss));

    // Transport over each face per second and metre: what goes right from the cell before it, and left from the cell after it.
    private static (double[] ToRight, double[] ToLeft) Exchange(LineUpAxis axis, AirSetting setting)
    {
        var toRight = new double[axis.Count];
        var toLeft = new double[axis.Count];
        for (var i = 0; i + 1 < axis.Count; i++)
        {
            var gap = axis.Centres[i + 1] - axis.Centres[i];
            var blocked = axis.JointAfter[i] ? setting.Blocking * BlockingMetres : 0;
            var conductance = setting.StillDispersion / (gap + blocked);
            var flow = 0.5 * setting.StillSpeed * gap / (gap + blocked);
            toRight[i] = conductance + flow;
            toLeft[i] = conductance - flow;
        }

        return (toRight, toLeft);
    }

    // One implicit step of the transposed system: (I - dt A') w = w.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Step(LineUpAxis axis, double[] toRight, double[] toLeft, double dt, double loss, double[] w)
    {
        var n = w.Length;
        var upper = new double[n];
        var last = 0.0;
        for (var i = 0; i < n; i++)
        {
            var width = axis.Widths[i];
            var diagonal = 1 + (dt * (loss + ((toRight[i] + (i > 0 ? toLeft[i - 1] : 0)) / width)));
            var lower = i > 0 ? -dt * toLeft[i - 1] / width : 0;
            var pivot = diagonal - (lower * (i > 0 ? upper[i - 1] : 0));
            upper[i] = -dt * toRight[i] / width / pivot;
            last = (w[i] - (lower * last)) / pivot;
            w[i] = last;
        }

        for (var i = n - 2; i >= 0; i--) w[i] -= upper[i] * w[i + 1];
    }
}
