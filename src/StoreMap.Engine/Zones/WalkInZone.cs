using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>A walk-in's answer: a zone with a radius, or how small a leak would have shown.</summary>
internal static class WalkInZone
{
    /// <summary>The zone; null when the walk-in's readings do not call for one or its air is raised evenly.</summary>
    public static LeakZone? Of(Plan plan, WalkInStudy study, NetSurvey survey, IReadOnlyList<LeakPrior> history, LocateSettings settings)
    {
        if (survey.Rooms.Any(r => r.Room == study.Fixture.Id && r.Raised)) return null;
        var gas = study.Blocks.SelectMany(b => b.Readings).Where(r => r.ShowsGas).ToList();
        if (gas.Count == 0) return null;
        var (logOdds, place, mixed) = study.Fit();
        var probability = 1 / (1 + Math.Exp(-logOdds));
        if (probability < settings.LeastZoneProbability) return null;
        var best = Enumerable.Range(0, place.Length).OrderByDescending(p => place[p]).ThenBy(p => p).First();
        var at = study.Places[best];
        var radius = 0.0;
        var held = 0.0;
        foreach (var p in Enumerable.Range(0, place.Length).OrderBy(p => study.Places[p].DistanceTo(at)).ThenBy(p => p))
        {
            held += place[p];
            radius = study.Places[p].DistanceTo(at);
            if (held >= settings.Level) break;
        }

        var highest = gas.OrderByDescending(r => r.Net).First();
        var middle = RoughStrength.KilogramsPerYear(
            mixed, RoughStrength.ExchangeOfWalkIn(Area(study.Fixture.Outline)), RoughStrength.MolarMassAt(plan, study.Fixture, 0), RoughStrength.KelvinOf(study.Fixture));
        return new LeakZone
        {
            Fixture = study.Fixture.Id,
            Probability = probability,
            Level = settings.Level,
            At = at,
            Radius = radius + 0.2,
            PeakPpm = highest.Net,
            PeakOverRange = highest.Bound == ReadingBound.AtLeast,
            Strength = RoughStrength.Word(middle),
            StrengthLowKilogramsPerYear = middle / (RoughStrength.RangeFactor * 1.5),
            StrengthHighKilogramsPerYear = middle * RoughStrength.RangeFactor * 1.5,
            Reason = Reason(plan, study, highest, at, history),
        };
    }

    /// <summary>Mixed ppm that would have shown, the probability of no leak that large, and its strength range in kilograms a year.</summary>
    public static (double Ppm, double Probability, double Low, double High) Smallest(Plan plan, WalkInStudy study, bool aboveGas)
    {
        var ppm = 1.4 * study.Blocks.SelectMany(b => b.Readings).Min(r => (aboveGas && r.Bound != ReadingBound.Below ? Math.Max(r.Source.DetectionPpm, r.Net) : r.Source.DetectionPpm) / r.View.Case);
        var middle = RoughStrength.KilogramsPerYear(
            ppm, RoughStrength.ExchangeOfWalkIn(Area(study.Fixture.Outline)), RoughStrength.MolarMassAt(plan, study.Fixture, 0), RoughStrength.KelvinOf(study.Fixture));
        return (ppm, 1 / (1 + (0.1 * study.Expected.Sum())), middle / RoughStrength.RangeFactor, middle * RoughStrength.RangeFactor);
    }

    private static string Reason(Plan plan, WalkInStudy study, BlockReading highest, PlanPoint at, IReadOnlyList<LeakPrior> history)
    {
        var reason = $"highest, {(highest.Source.HitOnly ? "a hit" : highest.Bound == ReadingBound.AtLeast ? "over range" : Say.Ppm(highest.Net))}, inside"
            + (AirRegime.IsFansOn(highest.Source.Reading) ? " with fans on" : " with fans off");
        if (study.Fixture.Coils.Count > 0)
        {
            reason += $"; the nearest coil is {Say.Distance(study.Fixture.Coils.Min(c => c.DistanceTo(at)), plan.Units)} from the likeliest place";
        }

        return string.Join("; ", history.Where(h => h.Fixture == study.Fixture.Id && h.Weight > 1).Select(h => h.Reason).Prepend(reason));
    }

    private static double Area(IReadOnlyList<PlanPoint> ring)
    {
        var twice = 0.0;
        for (var i = 0; i < ring.Count; i++) twice += ring[i].Cross(ring[(i + 1) % ring.Count]);
        return Math.Abs(twice) / 2;
    }
}
