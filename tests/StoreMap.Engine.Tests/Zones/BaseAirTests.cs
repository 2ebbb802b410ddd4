using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>The base's priors against what they are said to follow from: normal theory for loss and dispersion, drawn and binned.</summary>
public class BaseAirTests
{
    [Fact]
    public void ExchangePerMetre_GivenTheReach_IsTheConditionalMeanOfItsPriors()
    {
        var random = new Random(4);
        var (sums, squares, counts) = (new double[4], new double[4], new int[4]);
        double[] reaches = [0.5, 1.1, 2.3, 4.5];
        for (var i = 0; i < 400_000; i++)
        {
            var exchange = 0.003 * Math.Exp(0.9 * Normal());
            var reach = Math.Sqrt(0.02 * Math.Exp(1.2 * Normal()) * 0.2 / exchange);
            var k = Array.FindIndex(reaches, r => Math.Abs(Math.Log(reach / r)) < 0.05);
            if (k < 0) continue;
            sums[k] += Math.Log(exchange);
            squares[k] += Math.Log(exchange) * Math.Log(exchange);
            counts[k]++;
        }

        for (var k = 0; k < 4; k++)
        {
            var mean = sums[k] / counts[k];
            Assert.Equal(mean, Math.Log(BaseAir.ExchangePerMetre(reaches[k])), 0.04);
            Assert.Equal(Math.Sqrt((squares[k] / counts[k]) - (mean * mean)), BaseAir.ExchangeDeviation, 0.03);
        }

        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
    }

    [Fact]
    public void Settings_Weights_SumToOne() => Assert.Equal(1, BaseAir.Settings.Sum(s => s.Weight), 1e-12);
}
