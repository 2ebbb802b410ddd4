using CsCheck;

namespace StoreMap.Tests;

/// <summary>Random cases that are the same in every run: a failure seen once is seen again.</summary>
internal static class Repeatable
{
    /// <summary>Draws cases and checks each; a failure names the seed of its case.</summary>
    public static void SampleAgain<T>(this Gen<T> gen, Action<T> check, int iter)
    {
        for (var k = 0; k < iter; k++) gen.Sample(check, seed: new PCG(1, (ulong)(1000 + k)).ToString(), iter: 1, threads: 1);
    }
}
