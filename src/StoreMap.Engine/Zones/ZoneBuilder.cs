using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>Turns a line-up's posterior into zones, one per leak and fixture.</summary>
internal static class ZoneBuilder
{
    /// <summary>Zones of one leak: more than one when it may be on either side of a joint between fixtures.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="study">The line-up.</param>
    /// <param name="leak">Its posterior.</param>
    /// <param name="place">Probability per cell given the leak.</param>
    /// <param name="partner">The other leak of the line-up, for the curve; null without one.</param>
    /// <param name="probability">Probability that the leak exists.</param>
    /// <param name="history">Priors handed in.</param>
    /// <param name="settings">Settings.</param>
    public static IEnumerable<LeakZone> Of(
        Plan plan, LineUpStudy study, OneLeak leak, double[] place, PartnerLeak? partner, double probability, IReadOnlyList<LeakPrior> history, LocateSettings settings)
    {
        var axis = study.Axis;
        for (var f = 0; f < axis.Fixtures.Length; f++)
        {
            var cells = Enumerable.Range(0, axis.Count).Where(c => axis.Owner[c] == f).ToArray();
            var share = cells.Sum(c => place[c]);
            if (probability * share < settings.LeastZoneProbability) continue;
            yield return Zone(plan, study, leak, place, partner, f, cells, share, probability * share, history, settings);
        }
    }

    private static LeakZone Zone(
        Plan plan, LineUpStudy study, OneLeak leak, double[] place, PartnerLeak? partner, int f, int[] cells, double share, double probability,
        IReadOnlyList<LeakPrior> history, LocateSettings settings)
    {
        var axis = study.Axis;
        var fixture = axis.Fixtures[f];
        var turned = axis.ToFront(f, axis.Centres[cells[0]]) > axis.ToFront(f, axis.Centres[cells[^1]]);
        if (turned) Array.Reverse(cells);
        var mass = cells.Select(c => place[c] / share).ToArray();
        var baseShare = cells.Select(c => leak.BaseShare[c]).ToArray();
        var edges = new double[cells.Length + 1];
        for (var i = 0; i < cells.Length; i++) edges[i + 1] = edges[i] + axis.Widths[cells[i]];
        var (from, to) = PlaceSummary.Shortest(edges, mass, settings.Level);
        var center = PlaceSummary.Median(edges, mass);
        var inBase = mass.Select((m, i) => m * baseShare[i]).Sum();
        var readings = study.Blocks.SelectMany(b => b.Readings).Where(r => r.Source.Reading.Place.Fixture == fixture.Id).ToList();
        var peak = PeakNear(study, from, to, f);
        var strength = StrengthRange.Of(plan, fixture, center, study, leak, inBase);
        return new LeakZone
        {
            Fixture = fixture.Id,
            Probability = Math.Min(1, probability),
            Level = settings.Level,
            From = from,
            To = to,
            Center = center,
            At = fixture.Front!.PointAt(edges[Mode(mass, edges)]),
            PeakPpm = peak?.Net ?? Math.Max(0, study.HighestNet),
            PeakOverRange = peak?.Bound == ReadingBound.AtLeast,
            Strength = RoughStrength.Word(strength.Middle),
            StrengthLowKilogramsPerYear = strength.Low,
            StrengthHighKilogramsPerYear = strength.High,
            Reason = ZoneReason.Of(plan, fixture, readings, center, inBase, study.TellsBase, history, settings),
            Panels = PanelChances.Of(fixture, edges, mass, baseShare),
            Profiles = new ProfileCurves(study, leak, inBase > 0.5 ? 1 : 0, partner, f, edges, mass).All(),
        };
    }

    private static int Mode(double[] mass, double[] edges)
    {
        var best = 0;
        for (var i = 1; i < mass.Length; i++)
        {
            if (mass[i] / (edges[i + 1] - edges[i]) > mass[best] / (edges[best + 1] - edges[best])) best = i;
        }

        return best;
    }

    // Highest reading within 2 m of the zone on its own fixture; where that shows no gas, on any of the line-up.
    private static BlockReading? PeakNear(LineUpStudy study, double from, double to, int fixture)
    {
        var (a, b) = (study.Axis.ToAxis(fixture, from), study.Axis.ToAxis(fixture, to));
        var (low, high) = (Math.Min(a, b) - 2, Math.Max(a, b) + 2);
        var near = study.Blocks.SelectMany(x => x.Readings).Where(r => r.Bound != ReadingBound.Below && !r.HitOnly && r.View.IsAtCase && r.S >= low && r.S <= high).ToList();
        return near.Where(r => r.Source.Reading.Place.Fixture == study.Axis.Fixtures[fixture].Id && r.ShowsGas).MaxBy(r => r.Net) ?? near.MaxBy(r => r.Net);
    }
}
