namespace StoreMap.Simulation.Stores;

/// <summary>One air space along a line, moved through time: dispersion, drift, exchange with the outside, closed ends. Conservative
/// upwind finite volumes, backward Euler, one tridiagonal solve a step.</summary>
internal sealed class Channel(int cells, double cellMetres)
{
    private readonly double[] upper = new double[cells];
    private readonly double[] right = new double[cells];

    /// <summary>ppm in each cell.</summary>
    public double[] Ppm { get; } = new double[cells];

    /// <summary>Dispersion at each face, m2/s; face i lies before cell i, the outer faces are not used.</summary>
    public double[] Dispersion { get; } = new double[cells + 1];

    /// <summary>Speed at each face, m/s, positive towards higher cells; at the outer faces only inflow is meant.</summary>
    public double[] Speed { get; } = new double[cells + 1];

    /// <summary>Exchange with the outside, 1/s.</summary>
    public double[] Exchange { get; } = new double[cells];

    /// <summary>ppm outside each cell.</summary>
    public double[] Outside { get; } = new double[cells];

    /// <summary>ppm a second set free in each cell; taken up and cleared by a step.</summary>
    public double[] Source { get; } = new double[cells];

    /// <summary>ppm a second that went to the outside in the last step, net, per cell.</summary>
    public double[] Lost { get; } = new double[cells];

    /// <summary>Moves on by a step.</summary>
    public void Step(double seconds)
    {
        var n = Ppm.Length;
        var rate = 1 / seconds;
        for (var i = 0; i < n; i++)
        {
            var (before, after) = (Speed[i], Speed[i + 1]);
            // Air that a slowing draught piles up leaves through the front; what a quickening one lacks comes in from there.
            var piled = (before - after) / cellMetres;
            var leaves = Exchange[i] + Math.Max(0, piled);
            var enters = Exchange[i] + Math.Max(0, -piled);
            var low = i > 0 ? (Dispersion[i] / (cellMetres * cellMetres)) + (Math.Max(0, before) / cellMetres) : 0;
            var high = i + 1 < n ? (Dispersion[i + 1] / (cellMetres * cellMetres)) + (Math.Max(0, -after) / cellMetres) : 0;
            var own = rate + leaves
                + (i > 0 ? (Dispersion[i] / (cellMetres * cellMetres)) + (Math.Max(0, -before) / cellMetres) : Math.Max(0, -before) / cellMetres)
                + (i + 1 < n ? (Dispersion[i + 1] / (cellMetres * cellMetres)) + (Math.Max(0, after) / cellMetres) : Math.Max(0, after) / cellMetres);
            var known = (rate * Ppm[i]) + Source[i] + (enters * Outside[i]);
            if (i == 0) known += Math.Max(0, before) / cellMetres * Outside[i];
            if (i + 1 == n) known += Math.Max(0, -after) / cellMetres * Outside[i];
            var pivot = own - (low * (i > 0 ? upper[i - 1] : 0));
            upper[i] = high / pivot;
            right[i] = (known + (low * (i > 0 ? right[i - 1] : 0))) / pivot;
            Source[i] = 0;
        }

        for (var i = n - 1; i >= 0; i--)
        {
            Ppm[i] = right[i] + (i + 1 < n ? upper[i] * Ppm[i + 1] : 0);
            var piled = (Speed[i] - Speed[i + 1]) / cellMetres;
            Lost[i] = ((Exchange[i] + Math.Max(0, piled)) * Ppm[i]) - ((Exchange[i] + Math.Max(0, -piled)) * Outside[i]);
        }
    }

    /// <summary>ppm at a place, between cell centres linearly.</summary>
    /// <param name="s">Metres from the first end.</param>
    public double At(double s)
    {
        var u = Math.Clamp((s / cellMetres) - 0.5, 0, Ppm.Length - 1);
        var i = Math.Min((int)u, Ppm.Length - 2);
        return i < 0 ? Ppm[0] : Ppm[i] + ((u - i) * (Ppm[i + 1] - Ppm[i]));
    }
}
