namespace StoreMap.Simulation.Stores;

/// <summary>Fixed differences from place to place along a line-up: a log-normal factor of mean 1, correlated over 2.5 ft.</summary>
internal static class PatchField
{
    private const double CorrelationMetres = 0.762;

    /// <summary>One factor per cell.</summary>
    public static double[] Draw(int cells, double cellMetres, double deviation, SeededNoise noise)
    {
        var values = new double[cells];
        var keep = Math.Exp(-cellMetres / CorrelationMetres);
        var log = deviation * noise.Normal();
        for (var i = 0; i < cells; i++)
        {
            values[i] = Math.Exp(log - (deviation * deviation / 2));
            log = (keep * log) + (deviation * Math.Sqrt(1 - (keep * keep)) * noise.Normal());
        }

        return values;
    }
}
