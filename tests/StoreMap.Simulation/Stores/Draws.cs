namespace StoreMap.Simulation.Stores;

/// <summary>Random draws in the forms the generator needs.</summary>
internal static class Draws
{
    public static double Between(this SeededNoise noise, double low, double high) => low + ((high - low) * noise.Uniform());

    public static double LogBetween(this SeededNoise noise, double low, double high) => low * Math.Pow(high / low, noise.Uniform());

    public static double LogNormal(this SeededNoise noise, double median, double logDeviation) => median * Math.Exp(logDeviation * noise.Normal());

    public static bool Chance(this SeededNoise noise, double probability) => noise.Uniform() < probability;

    public static int Below(this SeededNoise noise, int count) => Math.Min(count - 1, (int)(noise.Uniform() * count));

    public static T Pick<T>(this SeededNoise noise, IReadOnlyList<T> items) => items[noise.Below(items.Count)];
}
