using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>How small a leak would have shown on a line-up's fixture with the readings taken.</summary>
internal static class SmallestLeak
{
    /// <summary>A leak of the smallest size shows with this probability, averaged over where it may be and how the air may move.</summary>
    private const double Shows = 0.9;

    /// <summary>Logarithmic deviation of a single reading: turbulence and patch together.</summary>
    private const double ReadingLogDeviation = 0.4;

    private const int Bins = 160;
    private const double LowestLog = -9;
    private const double BinLog = 0.1;

    /// <summary>Peak net ppm of the smallest leak that would have shown, and the probability that the fixture has none of at least that
    /// size, given that none showed.</summary>
    /// <param name="study">The fixture's line-up.</param>
    /// <param name="fixture">The fixture's place in it.</param>
    /// <param name="aboveGas">True when each reading's own ppm is gas from elsewhere that a leak here has to exceed.</param>
    /// <param name="logMeanAtReach">Prior mean of the logarithm of a leak's peak ppm, by the metres it reaches.</param>
    public static (double Ppm, double NoneProbability) Of(LineUpStudy study, int fixture, bool aboveGas, Func<double, double> logMeanAtReach)
    {
        var cells = Enumerable.Range(0, study.Axis.Count).Where(c => study.Axis.Owner[c] == fixture).Where((_, i) => i % 3 == 0).ToArray();
        var expected = Enumerable.Range(0, study.Axis.Count).Where(c => study.Axis.Owner[c] == fixture).Sum(c => study.Expected[c]);
        // Per cell, block and air setting: the best reading's response over its detection level, in bins of its logarithm.
        var bins = new double[Bins];
        foreach (var cell in cells)
        {
            for (var b = 0; b < study.Blocks.Count; b++)
            {
                var fit = study.Fits[0][b];
                if (!study.Blocks[b].FansOn && study.Blocks.Any(x => x.FansOn)) continue;
                for (var t = 0; t < fit.Settings.Length; t++)
                {
                    if (!fit.Settings[t].Calm) continue;
                    var log = double.NegativeInfinity;
                    for (var i = 0; i < study.Blocks[b].Readings.Length; i++)
                    {
                        var reading = study.Blocks[b].Readings[i];
                        var level = reading.Source.DetectionPpm;
                        if (aboveGas && reading.Bound == ReadingBound.AtLeast) level = double.PositiveInfinity;
                        else if (aboveGas && reading.Bound != ReadingBound.Below) level = Math.Max(level, reading.Net);
                        log = Math.Max(log, fit.LogResponse(cell, t, i) - Math.Log(level));
                    }

                    bins[(int)Math.Clamp((log - LowestLog) / BinLog, 0, Bins - 1)] += fit.Settings[t].Weight;
                }
            }
        }

        var sum = bins.Sum();
        var (low, high) = (-3.0, 9.0);
        for (var i = 0; i < 30; i++)
        {
            var middle = (low + high) / 2;
            if (Chance(middle) < Shows) low = middle;
            else high = middle;
        }

        // Leaks above that size that were missed all the same.
        var missed = 0.0;
        const double step = 0.2;
        var mean = logMeanAtReach(1.2);
        for (var u = high + (step / 2); u < high + 7; u += step)
        {
            missed += (1 - Chance(u)) * Math.Exp(-0.5 * Math.Pow((u - mean) / RoughStrength.PriorLogDeviation, 2)) * step
                / (RoughStrength.PriorLogDeviation * Math.Sqrt(2 * Math.PI));
        }

        return (Math.Exp(high), 1 / (1 + (expected * missed)));

        double Chance(double logPeak)
        {
            var chance = 0.0;
            for (var k = 0; k < Bins; k++)
            {
                if (bins[k] > 0) chance += bins[k] * NormalLaw.Phi((logPeak + LowestLog + ((k + 0.5) * BinLog)) / ReadingLogDeviation);
            }

            return chance / sum;
        }
    }
}
