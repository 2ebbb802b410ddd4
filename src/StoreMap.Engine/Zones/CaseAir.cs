namespace StoreMap.Zones;

/// <summary>Steady air inside a line-up: along-axis dispersion and drift, loss to the aisle, section ends that block in part,
/// outer ends that are closed but for a drift's own air. D c'' - u c' - k c + source = 0 on the axis' cells, scaled by k.</summary>
/// <remarks>One tridiagonal solve of the transposed system per reading gives what that reading shows for a source in every
/// cell. Strength 1 is the source whose peak would be 1 ppm in an endless, calm, open line-up.</remarks>
internal static class CaseAir
{
    /// <summary>Metres of aisle over which gas that spilled from a case and is taken in again falls to 1/e.</summary>
    public const double ReturnMetres = 3.5;

    /// <summary>What a reading at a place shows for a source of strength 1 in each cell.</summary>
    /// <param name="axis">The line-up.</param>
    /// <param name="setting">The air.</param>
    /// <param name="s">Place of the reading, metres along the axis.</param>
    /// <param name="response">Filled with one value per cell.</param>
    public static void Response(LineUpAxis axis, AirSetting setting, double s, Span<double> response)
    {
        var n = axis.Count;
        var lower = new double[n];
        var diagonal = new double[n];
        var upper = new double[n];
        for (var i = 0; i < n; i++) diagonal[i] = axis.Widths[i];
        for (var i = 0; i + 1 < n; i++)
        {
            var gap = (axis.Widths[i] + axis.Widths[i + 1]) / 2;
            var resistance = gap / (setting.Reach * setting.Reach);
            var open = 1.0;
            if (axis.JointAfter[i])
            {
                open = resistance / (resistance + (setting.Blocking / setting.Reach));
                resistance += setting.Blocking / setting.Reach;
            }

            var conductance = 1 / resistance;
            var flow = setting.Drift * setting.Reach * open;
            // Flux from i to i+1: conductance (c_i - c_{i+1}) + flow (c_i + c_{i+1}), central; 2 drift reach is u / k.
            diagonal[i] += conductance + flow;
            upper[i] = -conductance + flow;
            diagonal[i + 1] += conductance - flow;
            lower[i + 1] = -conductance - flow;
        }

        // A drift leaves over the lip at the end it blows to, with its gas, and comes in clean at the other.
        if (setting.Drift > 0) diagonal[n - 1] += 2 * setting.Drift * setting.Reach;
        else diagonal[0] -= 2 * setting.Drift * setting.Reach;

        // The transposed system has the lower and upper bands exchanged.
        axis.Spread(s, response);
        for (var i = 1; i < n; i++)
        {
            var factor = upper[i - 1] / diagonal[i - 1];
            diagonal[i] -= factor * lower[i];
            response[i] -= factor * response[i - 1];
        }

        response[n - 1] /= diagonal[n - 1];
        for (var i = n - 2; i >= 0; i--) response[i] = (response[i] - (lower[i + 1] * response[i + 1])) / diagonal[i];
        for (var i = 0; i < n; i++)
        {
            response[i] = (response[i] * 2 * setting.Reach) + (setting.Return * Spread.AisleTrace(Math.Abs(s - axis.Centres[i]), setting.Reach, ReturnMetres));
        }
    }
}
