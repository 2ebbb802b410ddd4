using StoreMap.Air;

namespace StoreMap.Tests.Air;

/// <summary>Products of tiles, by the plain sum that defines them.</summary>
public class DenseTilesTests
{
    [Fact]
    public void SubtractNarrowAndWide_OfAnyNumbers_AreThePlainSumToTheBit()
    {
        const int terms = 13, stride = 9;
        var random = new Random(4);
        double[] Some(int count) => [.. Enumerable.Range(0, count).Select(_ => (random.NextDouble() - 0.5) * Math.Pow(10, random.Next(-3, 4)))];
        var (a, b, c) = (Some(DenseTiles.Side * terms), Some(DenseTiles.Side * terms), Some(stride * DenseTiles.Side));
        var plain = (double[])c.Clone();
        for (var column = 0; column < 4; column++)
        {
            for (var row = 0; row < DenseTiles.Side; row++)
            {
                var sum = 0.0;
                for (var p = 0; p < terms; p++) sum += a[(p * DenseTiles.Side) + row] * b[(p * DenseTiles.Side) + column];
                plain[(column * stride) + row] -= sum;
            }
        }

        var (narrow, wide) = ((double[])c.Clone(), (double[])c.Clone());
        DenseTiles.SubtractNarrow(ref a[0], ref b[0], terms, ref narrow[0], stride);
        DenseTiles.SubtractNarrow(ref a[4], ref b[0], terms, ref narrow[4], stride);
        DenseTiles.SubtractWide(ref a[0], ref b[0], terms, ref wide[0], stride);
        Assert.Equal(plain, narrow);
        Assert.Equal(plain, wide);
    }
}
