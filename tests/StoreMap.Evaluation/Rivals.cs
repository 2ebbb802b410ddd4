using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Evaluation;

/// <summary>Simpler answers on the same readings.</summary>
internal static class Rivals
{
    private const double StepMetres = 0.15;
    private const int MostNeighbours = 30;

    /// <summary>The place each rival names; null when it has no readings to go by.</summary>
    public static (string Fixture, PlanPoint At)? Answer(Method method, Plan plan, NetSurvey survey, Stage stage)
    {
        var readings = Used(survey, stage);
        if (readings.Count == 0) return null;
        var highest = readings.MaxBy(r => r.NetPpm)!;
        var fixture = plan.FindFixture(highest.Reading.Place.Fixture)!;
        return method switch
        {
            Method.Kriging => Kriging(plan, readings) ?? (fixture.Id, highest.Reading.Place.At),
            Method.FixtureCentre => (fixture.Id, fixture.Front is { } front ? front.PointAt(front.Length / 2) : PlanPlaces.PointOn(fixture, 0)),
            _ => (fixture.Id, highest.Reading.Place.At),
        };
    }

    // With fans off only those readings count: they pinpoint, and nobody would average them with moving air.
    private static List<NetReading> Used(NetSurvey survey, Stage stage)
    {
        var all = survey.Readings.Where(r => r.Reading.Place.Fixture is not null && r.Reading.Spot is not (Spot.KickPlate or Spot.Ceiling)).ToList();
        var still = all.Where(r => r.Reading.Air == AirState.FansOff).ToList();
        return stage == Stage.FansOff && still.Count > 0 ? still : [.. all.Where(r => r.Reading.Air == AirState.FansOn)];
    }

    private static (string Fixture, PlanPoint At)? Kriging(Plan plan, List<NetReading> readings)
    {
        var samples = readings.GroupBy(r => r.Reading.Place.At).Select(g => new SamplePoint(g.Key, g.Average(r => r.NetPpm))).ToList();
        if (samples.Count < 4) return null;
        VariogramModel model;
        try
        {
            model = VariogramFit.To(VariogramBins.Of(samples), VariogramShape.Exponential).Model;
        }
        catch (ArgumentException)
        {
            return null;
        }

        if (model.Sill <= 0) return null;
        var kriging = new OrdinaryKriging(samples, model, Math.Min(MostNeighbours, samples.Count));
        (string Fixture, PlanPoint At)? best = null;
        var bestValue = double.NegativeInfinity;
        foreach (var fixture in readings.Select(r => r.Reading.Place.Fixture!).Distinct().Select(id => plan.FindFixture(id)!))
        {
            foreach (var at in Places(fixture, readings))
            {
                var value = kriging.Estimate(at).Value;
                if (value <= bestValue) continue;
                bestValue = value;
                best = (fixture.Id, at);
            }
        }

        return best;
    }

    private static IEnumerable<PlanPoint> Places(Fixture fixture, List<NetReading> readings)
    {
        if (fixture.Front is null) return readings.Where(r => r.Reading.Place.Fixture == fixture.Id).Select(r => r.Reading.Place.At);
        var own = readings.Where(r => r.Reading.Place.Fixture == fixture.Id).ToList();
        var steps = Math.Max(1, (int)(fixture.Front.Length / StepMetres));
        var places = Enumerable.Range(0, steps + 1).Select(i => fixture.Front.PointAt(fixture.Front.Length * i / steps));
        if (fixture.Back is not null) places = places.Concat(Enumerable.Range(0, steps + 1).Select(i => fixture.Back.PointAt(fixture.Back.Length * i / steps)));
        // Only the stretch that was probed: elsewhere kriging falls back to the mean.
        return places.Where(p => own.Any(r => r.Reading.Place.At.DistanceTo(p) < 2.4));
    }
}
