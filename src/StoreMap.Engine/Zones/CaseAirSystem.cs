using System.Runtime.CompilerServices;

namespace StoreMap.Zones;

/// <summary>The equations of a line-up's moving air in one setting, factored: one solve for each place that is read.</summary>
internal sealed class CaseAirSystem
{
    private readonly LineUpAxis axis;
    private readonly double scale;
    private readonly double[] lower;
    private readonly double[] diagonal;
    private readonly double[] factor;

    /// <summary>Sets the equations up and factors them.</summary>
    /// <param name="axis">The line-up.</param>
    /// <param name="setting">The air.</param>
    public CaseAirSystem(LineUpAxis axis, AirSetting setting)
    {
        this.axis = axis;
        scale = setting.Reach;
        var n = axis.Count;
        lower = new double[n];
        diagonal = new double[n];
        factor = new double[n];
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
        for (var i = 1; i < n; i++)
        {
            factor[i] = upper[i - 1] / diagonal[i - 1];
            diagonal[i] -= factor[i] * lower[i];
        }
    }

    /// <summary>What a reading at a place shows for a source of strength 1 in each cell, without what comes back from the aisle.</summary>
    /// <param name="s">Place of the reading, metres along the axis.</param>
    /// <param name="response">Filled with one value per cell.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Solve(double s, Span<double> response)
    {
        var n = axis.Count;
        axis.Spread(s, response);
        for (var i = 1; i < n; i++) response[i] -= factor[i] * response[i - 1];
        response[n - 1] /= diagonal[n - 1];
        for (var i = n - 2; i >= 0; i--) response[i] = (response[i] - (lower[i + 1] * response[i + 1])) / diagonal[i];
        for (var i = 0; i < n; i++) response[i] = response[i] * 2 * scale;
    }
}
