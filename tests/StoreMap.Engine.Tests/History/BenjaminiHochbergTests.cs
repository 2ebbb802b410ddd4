using CsCheck;
using StoreMap.History;

namespace StoreMap.Tests.History;

public class BenjaminiHochbergTests
{
    /// <summary>The 15 probabilities of Benjamini and Hochberg 1995, section 3.2: at 5 % their procedure rejects the first four.</summary>
    private static readonly double[] Paper =
    [
        0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.0000,
    ];

    [Fact]
    public void Adjust_ExampleOfThePaper_FindsFourDiscoveries()
    {
        var adjusted = BenjaminiHochberg.Adjust(Paper);
        Assert.Equal(4, adjusted.Count(p => p <= 0.05));
        Assert.Equal(0.0095 * 15 / 4, adjusted[3], 12);
        Assert.Equal(0.0344 * 15 / 8, adjusted[7], 12);
        Assert.Equal(1, adjusted[14]);
    }

    [Fact]
    public void Adjust_AnyProbabilities_KeepsTheirOrderAndNeverLowers() => Gen.Double[0, 1].Array[0, 20].Sample(p =>
    {
        var adjusted = BenjaminiHochberg.Adjust(p);
        for (var i = 0; i < p.Length; i++)
        {
            Assert.InRange(adjusted[i], p[i], 1);
            for (var j = 0; j < p.Length; j++)
            {
                if (p[i] < p[j]) Assert.True(adjusted[i] <= adjusted[j]);
            }
        }
    });
}
