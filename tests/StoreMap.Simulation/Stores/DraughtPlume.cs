using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>A steady point source in a steady draught: 1/(4 pi D r) exp(-u (r - x)/(2 D)), x downwind (Carslaw and Jaeger 1959; Csanady 1973).</summary>
internal static class DraughtPlume
{
    /// <summary>Concentration of a source of 1 a second, 1/m3.</summary>
    /// <param name="away">Metres on the plan from the source.</param>
    /// <param name="height">Metres over or under it, not 0 at the source.</param>
    /// <param name="draught">Draught, m/s on the plan.</param>
    /// <param name="dispersion">Dispersion, m2/s.</param>
    public static double At(PlanPoint away, double height, PlanPoint draught, double dispersion)
    {
        var r = Math.Sqrt((away.X * away.X) + (away.Y * away.Y) + (height * height));
        var speed = double.Hypot(draught.X, draught.Y);
        var against = (speed * r) - ((away.X * draught.X) + (away.Y * draught.Y));
        return Math.Exp(-against / (2 * dispersion)) / (4 * Math.PI * dispersion * r);
    }
}
