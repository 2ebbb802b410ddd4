using System.Text;
using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Simulation.Stores;
using StoreMap.Surveys;

namespace StoreMap.Tests;

/// <summary>The heat map's honesty on simulated stores, whose air has other physics than the field: coarse and close-in passes are mapped
/// from three quarters of their readings, and the rest must lie in the 90 % intervals that the map gives for a reading at their places.</summary>
public class FieldCoverageTests(ITestOutputHelper output)
{
    private const int Stores = 40;

    [Fact]
    public void Build_ReadingsHeldOut_AreCoveredAsOftenAsSaid()
    {
        var (covered, count, low, high) = (0, 0, 0, 0);
        var (exact, exactCovered) = (0, 0);
        var random = new Random(5);
        for (var number = 0; number < Stores; number++)
        {
            foreach (var (u, isExact) in HeldOut(StoreMaker.Make(21, number), random))
            {
                count++;
                covered += u is >= 0.05 and <= 0.95 ? 1 : 0;
                low += u < 0.05 ? 1 : 0;
                high += u > 0.95 ? 1 : 0;
                if (!isExact) continue;
                exact++;
                exactCovered += u is >= 0.05 and <= 0.95 ? 1 : 0;
            }
        }

        output.WriteLine(FormattableString.Invariant($"{count} readings held out, {100.0 * covered / count:0.0} % within, {low} below, {high} above; of {exact} above the limit {100.0 * exactCovered / exact:0.0} %"));
        Assert.True(count > 400);
        Assert.InRange((double)covered / count, 0.85, 0.95);
    }

    // Where in its predicted distribution each held-out reading lies; one under its limit anywhere below it, by chance.
    private static IEnumerable<(double U, bool Exact)> HeldOut(SimulatedStore store, Random random)
    {
        var surveyor = new Surveyor(store);
        SurveyPasses.Coarse(store, surveyor);
        SurveyPasses.CloseIn(store, surveyor, SurveyPasses.Hits(store, surveyor));
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(surveyor.ReadingsCsv()));
        var options = new SurveyReadOptions { DetectionPpm = surveyor.Monitor.DetectionPpm, ResolutionPpm = surveyor.Monitor.StepPpm, RangePpm = surveyor.Monitor.RangePpm };
        var net = NetSurveyBuilder.Build(store.Plan, SurveyReader.Read(stream, "readings.csv", store.Plan, [], options).Survey);
        // What is held under the lines overhead is no air of the floor or the cases, which the field is of.
        var held = net.Readings.Where(r => r.Reading.Place.Along is not null && r.Reading.Spot != Spot.Ceiling && r.Bound != ReadingBound.AtLeast && random.Next(4) == 0).ToHashSet();
        var field = GasFieldBuilder.Build(store.Plan, net with { Readings = [.. net.Readings.Where(r => !held.Contains(r))] }, new FieldSettings { CellMetres = 0.5 });
        var (sampler, fit) = (new FieldSampler(store.Plan, field), field.Fit!);
        foreach (var r in held)
        {
            var value = sampler.At(r.Reading.Place.At, r.Reading.Place.Fixture);
            if (!value.Evidence) continue;
            var n = fit.ScalePpm * Math.Max(0, Math.Exp(value.Level) - 1);
            var noise = r.DeviationPpm / (fit.ScalePpm + n);
            var share = n / (fit.ScalePpm + n) * fit.Turbulence;
            var deviation = Math.Sqrt((value.LevelDeviation * value.LevelDeviation) + (noise * noise) + (share * share));
            var level = Math.Log(1 + (Math.Max(r.NetPpm, -0.5 * fit.ScalePpm) / fit.ScalePpm));
            var below = Normal((level - value.Level) / deviation);
            yield return r.Bound == ReadingBound.Below ? (below * random.NextDouble(), false) : (below, true);
        }
    }

    // Abramowitz and Stegun 7.1.26 would do; this is exact enough by the complementary error function's continued form.
    private static double Normal(double z) => z > 0 ? 1 - Tail(z) : Tail(-z);

    private static double Tail(double z)
    {
        // Zelen and Severo, Abramowitz and Stegun 26.2.17: error under 7.5e-8.
        var t = 1 / (1 + (0.2316419 * z));
        var series = t * (0.319381530 + (t * (-0.356563782 + (t * (1.781477937 + (t * (-1.821255978 + (t * 1.330274429))))))));
        return Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) * series;
    }
}
