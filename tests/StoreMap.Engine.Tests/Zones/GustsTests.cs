using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>What correlated readings count, and gas of the aisle that strays along a front.</summary>
public class GustsTests
{
    /// <summary>Variance of the mean of n values of a first-order series: sigma² / n² times the sum of r^|i-j| (Bayley and Hammersley 1946).</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2.5)]
    [InlineData(20)]
    public void Weight_OfALogsReadings_IsTheEffectiveShareOfAFirstOrderSeries(double gap)
    {
        const int n = 400;
        var keep = Math.Exp(-gap / ReadingBlock.GustSeconds);
        var sum = 0.0;
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++) sum += Math.Pow(keep, Math.Abs(i - j));
        }

        Assert.Equal(n / sum, Block(n, gap, shown: 3).Weight, 0.02);
        Assert.Equal(1, Block(n, gap, shown: null).Weight);
    }

    /// <summary>A lone reading cannot tell a stray from noise of its own: both processes are variances that add.</summary>
    [Fact]
    public void LogOfAisle_OfALoneReading_IsThatOfTheSumOfVariances()
    {
        var block = Block(1, 20, shown: null);
        foreach (var log in new[] { -1.0, 0.5, 1.1, 3 })
        {
            var expected = double.NegativeInfinity;
            foreach (var stray in Spread.StrayDeviations)
            {
                expected = NormalLaw.LogAdd(expected, block.Quiet.LogLikelihood([log], 0.2 + (stray * stray)) - Math.Log(Spread.StrayDeviations.Length));
            }

            Assert.Equal(expected, block.Quiet.LogOfAisle([log], 0.2), 1e-9);
        }
    }

    /// <summary>Readings of no gas where the aisle holds some say that the line-up takes in little of it. Oracle: the likelihood of two readings for given
    /// strays, integrated over a fine grid of their joint normal law.</summary>
    [Theory]
    [InlineData(0, 0, 1.5)]
    [InlineData(0, 0, 4)]
    [InlineData(0, 3, 4)]
    [InlineData(5, 0, 4)]
    [InlineData(0, 0, 12)]
    public void LogOfAisle_OfReadingsOfNoGas_IsTheIntegralOverTheStray(double first, double second, double outside)
    {
        const double apart = 1.2;
        var block = BlockBuilder.Of(LineUps.Of(Case(LengthUnit.Foot))[0], Along([(5, first), (5 + (apart / Foot), second)]))[0];
        var expected = double.NegativeInfinity;
        foreach (var deviation in Spread.StrayDeviations)
        {
            const int grid = 121;
            var (keep, step) = (Math.Exp(-apart / Spread.StrayMetres), 8.0 / (grid - 1));
            for (var i = 0; i < grid; i++)
            {
                for (var j = 0; j < grid; j++)
                {
                    var (u, v) = (-4 + (i * step), -4 + (j * step));
                    var other = (keep * u) + (Math.Sqrt(1 - (keep * keep)) * v);
                    var log = block.Quiet.LogLikelihood([Math.Log(outside) + (deviation * u), Math.Log(outside) + (deviation * other)], 0.02);
                    expected = NormalLaw.LogAdd(expected, log - (0.5 * ((u * u) + (v * v))) + Math.Log(step * step / (2 * Math.PI * Spread.StrayDeviations.Length)));
                }
            }
        }

        Assert.Equal(expected, block.Quiet.LogOfAisle([Math.Log(outside), Math.Log(outside)], 0.02), 0.6);
    }

    /// <summary>Plumes touch a case over metres: a share that swells and ebbs slowly along the front is likelier than the same ups and downs
    /// from reading to reading.</summary>
    [Fact]
    public void LogOfAisle_SlowWave_IsLikelierThanTheSameNumbersShuffled()
    {
        const int n = 24;
        var slow = Enumerable.Range(0, n).Select(i => 8 * Math.Exp(0.9 * Math.Sin(2 * Math.PI * i / n))).ToArray();

        // High and low by turns.
        var sorted = slow.Order().ToArray();
        double[] shuffled = [.. Enumerable.Range(0, n).Select(i => i % 2 == 0 ? sorted[i / 2] : sorted[n - 1 - (i / 2)])];
        Assert.True(Aisle(slow) > Aisle(shuffled) + 3);

        static double Aisle(double[] ppm) =>
            BlockBuilder.Of(LineUps.Of(Case(LengthUnit.Foot))[0], Along([.. ppm.Select((p, i) => (1 + (1.4 * i), p))]))[0].LogOfAisle([.. ppm.Select(_ => 8.0)]);
    }

    private static ReadingBlock Block(int count, double gap, double? shown)
    {
        var axis = LineUps.Of(Case(LengthUnit.Foot))[0];
        var start = new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
        return BlockBuilder.Of(axis, Net([.. Enumerable.Range(0, count).Select(i =>
        {
            var along = 10.0 * (i + 0.5) / count;
            var net = Reading(0, 3, new ReadingPlace { Fixture = "C1", Along = along, At = new PlanPoint(along, 0) });
            return net with { Reading = net.Reading with { Time = start.AddSeconds(gap * i), Shown = shown } };
        })]))[0];
    }
}
