using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>Why a zone is where it is, in a plain sentence.</summary>
internal static class ZoneReason
{
    /// <summary>Under this share of the case's highest reading with fans on, gas under the lines speaks for a source in the case.</summary>
    private const double OverheadOfCase = 0.1;

    /// <summary>The sentence for a zone on a front.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="fixture">The zone's fixture.</param>
    /// <param name="readings">Readings on the fixture.</param>
    /// <param name="center">Median place, metres along the front.</param>
    /// <param name="baseShare">Probability of base piping.</param>
    /// <param name="tellsBase">True when both the case air and the base were probed.</param>
    /// <param name="history">Priors handed in.</param>
    /// <param name="settings">Weights of places.</param>
    public static string Of(
        Plan plan, Fixture fixture, IReadOnlyList<BlockReading> readings, double center, double baseShare, bool tellsBase,
        IReadOnlyList<LeakPrior> history, LocateSettings settings)
    {
        var parts = new List<string>();
        var overhead = readings.Where(r => !r.View.IsAtCase && !r.HitOnly && Math.Abs((r.Source.Reading.Place.Along ?? center) - center) <= NextProbe.SweepMetres).MaxBy(r => r.Net);
        readings = [.. readings.Where(r => r.View.IsAtCase)];
        var moving = Highest([.. readings.Where(r => AirRegime.IsFansOn(r.Source.Reading))]);
        var still = readings.Where(r => !AirRegime.IsFansOn(r.Source.Reading)).ToList();
        var best = Highest(still.Any(r => r.Net >= r.Source.DetectionPpm && r.Bound != ReadingBound.Below) ? still : readings);
        if (best is not null)
        {
            var along = best.Source.Reading.Place.Along ?? fixture.Front!.Project(best.At).Along;
            parts.Add($"highest, {(best.HitOnly ? "a hit" : best.Bound == ReadingBound.AtLeast ? "over range" : Say.Ppm(best.Net))}, at {Place(plan, fixture, along)}"
                + (AirRegime.IsFansOn(best.Source.Reading) ? " with fans on" : " with fans off"));
        }

        if (overhead is not null && moving is { HitOnly: false } && overhead.Net < OverheadOfCase * moving.Net)
        {
            parts.Add(overhead.Bound == ReadingBound.Below || overhead.Net < overhead.Source.DetectionPpm ? "no gas under the lines above it" : $"only {Say.Ppm(overhead.Net)} under the lines above it");
        }

        var near = PlacePrior.Features(plan, fixture, settings).Select(f => (f.Name, Distance: Math.Abs(f.Along - center), f.Weight))
            .Where(f => f.Distance < 1.2).OrderByDescending(f => f.Weight).ThenBy(f => f.Distance).FirstOrDefault();
        if (near.Name is not null) parts.Add($"{near.Name} is {Say.Distance(near.Distance, plan.Units)} from the middle of the zone");
        if (baseShare > 0.6 && tellsBase) parts.Add("high at the kick plate against the return: look at the base piping");
        else if (baseShare > 0.6 && (best is null || AirRegime.IsFansOn(best.Source.Reading))) parts.Add("the base piping may leak: probe the kick plates");
        parts.AddRange(history.Where(h => h.Fixture == fixture.Id && h.Weight > 1 && (h.Along is not { } a || Math.Abs(a - center) < 2)).Select(h => h.Reason));
        return parts.Count == 0 ? "its readings fit a leak here" : string.Join("; ", parts);
    }

    /// <summary>A place from the left end facing the case, such as <c>14 ft from the left end</c>.</summary>
    public static string Place(Plan plan, Fixture fixture, double along) =>
        Say.Distance(fixture.FromLeft(along), plan.Units) + " from the left end";

    private static BlockReading? Highest(IReadOnlyList<BlockReading> readings) => readings.Where(r => r.Bound != ReadingBound.Below)
        .OrderByDescending(r => r.HitOnly ? -1 : r.Bound == ReadingBound.AtLeast ? 1e9 + r.Net : r.Net).FirstOrDefault();
}
