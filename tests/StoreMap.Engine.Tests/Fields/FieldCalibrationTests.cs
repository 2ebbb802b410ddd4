using StoreMap.Air;
using StoreMap.Fields;
using StoreMap.Surveys;
using StoreMap.Tests.Oracles;
using static StoreMap.Tests.Air.AirPlans;
using static StoreMap.Tests.Fields.FieldCases;

namespace StoreMap.Tests.Fields;

/// <summary>Fields drawn from the closed form of the model (x K1(x), dense Cholesky of our own in the test), read with turbulence, noise
/// and a detection limit, and mapped from some of their points.</summary>
public class FieldCalibrationTests
{
    private const double Limit = 1;

    // 90 % intervals at held-out places: 85 to 95 % hold the truth.
    [Fact]
    public void Build_HeldOutPlaces_AreCoveredAsOftenAsSaid()
    {
        var (covered, places) = (0, 0);
        for (var seed = 1; seed <= 6; seed++)
        {
            var (readings, held) = Draw(seed, range: 4, spread: 1.5, turbulence: 0.2, shift: -0.25);
            var plan = Hall(16, 12);
            var field = Map(plan, Survey(readings), new FieldSettings { CellMetres = 0.5, OpenFloor = true });
            var sampler = new FieldSampler(plan, field);
            foreach (var (x, y, ppm) in held)
            {
                var value = sampler.At(new(x, y));
                places++;
                if (ppm >= value.LowPpm - 1e-9 && ppm <= value.HighPpm + 1e-9) covered++;
            }
        }

        Assert.InRange((double)covered / places, 0.85, 0.95);
    }

    // The estimated values lie near those the readings were drawn with, and explain the readings as well as the truth does.
    [Fact]
    public void Best_DrawnFields_FindsTheirValues()
    {
        var (logRange, logSpread, turbulence) = (0.0, 0.0, 0.0);
        const int Fields = 4;
        for (var seed = 11; seed < 11 + Fields; seed++)
        {
            var (readings, _) = Draw(seed, range: 3, spread: 1.4, turbulence: 0.2, shift: 0, snap: 0.5);
            var grid = AirGrid.Build(Hall(16, 12), 0.5);
            var bodies = FieldBody.Of(grid, readings.Select(r => FieldReadings.Site(r, grid.CellAt(r.Reading.Place.At), 1)), 4);
            var start = new FieldValues(4, 2, 0.1, 0);
            var best = FieldSearch.Best(bodies, start, () => { });
            var found = LogEvidence(bodies, best);
            Assert.True(found > LogEvidence(bodies, start));
            // No worse than the truth itself, but for what the weak prior costs.
            Assert.True(found > LogEvidence(bodies, new FieldValues(3, 1.4, 0.2, 0)) - 1.5);
            logRange += Math.Log(best.Range / 3) / Fields;
            logSpread += Math.Log(best.Spread / 1.4) / Fields;
            turbulence += best.Turbulence / Fields;
        }

        Assert.InRange(Math.Exp(logRange), 0.6, 1.7); // one field tells its range to a factor of 1.5 or so
        Assert.InRange(Math.Exp(logSpread), 0.75, 1.35);
        Assert.InRange(turbulence, 0.1, 0.3);
    }

    private static double LogEvidence(IReadOnlyList<FieldBody> bodies, FieldValues values) =>
        bodies.Sum(b => SitePosterior.Fit(ObservedPrior.Of(b.Factor(values.Range)), b.Sites, b.At, values).LogEvidence);

    private static (List<NetReading> Readings, List<(double X, double Y, double Ppm)> Held) Draw(
        int seed, double range, double spread, double turbulence, double shift, double snap = 0)
    {
                var random = new Random(seed);
        double Normal() => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        var places = Enumerable.Range(0, 150).Select(_ => (X: 2 + (12 * random.NextDouble()), Y: 2 + (8 * random.NextDouble()))).ToArray();
        // On cell centres what varies within a cell does not pass for turbulence.
        if (snap > 0) places = [.. places.Select(p => ((Math.Floor(p.X / snap) + 0.5) * snap, (Math.Floor(p.Y / snap) + 0.5) * snap)).Distinct()];
        var count = places.Length;
        var level = new double[count];
        var lower = new double[count, count];
        for (var i = 0; i < count; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = Matern.Correlation(double.Hypot(places[i].X - places[j].X, places[i].Y - places[j].Y), range) + (i == j ? 1e-6 : 0);
                for (var k = 0; k < j; k++) sum -= lower[i, k] * lower[j, k];
                lower[i, j] = i == j ? Math.Sqrt(sum) : sum / lower[j, j];
            }
        }

        var normal = Enumerable.Range(0, count).Select(_ => Normal()).ToArray();
        for (var i = 0; i < count; i++)
        {
            level[i] = shift;
            for (var j = 0; j <= i; j++) level[i] += spread * lower[i, j] * normal[j];
        }

        var readings = new List<NetReading>();
        var held = new List<(double, double, double)>();
        for (var i = 0; i < count; i++)
        {
            var ppm = Math.Max(0, Math.Exp(level[i]) - 1);
            if (i % 5 == 0)
            {
                held.Add((places[i].X, places[i].Y, ppm));
                continue;
            }

            var shown = (ppm * Math.Exp(turbulence * Normal())) + (0.3 * Normal());
            readings.Add(shown < Limit
                ? At(places[i].X, places[i].Y, Limit, ReadingBound.Below)
                : At(places[i].X, places[i].Y, shown));
        }

        return (readings, held);
    }
}
