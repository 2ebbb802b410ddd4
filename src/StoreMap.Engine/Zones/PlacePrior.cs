using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Expected leaks in each cell of a line-up before any reading: raised at drops, valve ends, drains and joints, in meat
/// cases, and by history; lowered behind panels that were lifted.</summary>
internal static class PlacePrior
{
    private const double HistoryReachMetres = 0.9;

    /// <summary>Expected leaks per cell.</summary>
    public static double[] Of(Plan plan, LineUpAxis axis, IReadOnlyList<LeakPrior> history, LocateSettings settings)
    {
        var expected = new double[axis.Count];
        for (var f = 0; f < axis.Fixtures.Length; f++)
        {
            var fixture = axis.Fixtures[f];
            var odds = new double[axis.Count];
            var (total, length) = (0.0, 0.0);
            var features = Features(plan, fixture, settings);
            for (var c = 0; c < axis.Count; c++)
            {
                if (axis.Owner[c] != f) continue;
                var along = axis.ToFront(f, axis.Centres[c]);
                odds[c] = 1 + features.Sum(p => (p.Weight - 1) * Bump(along - p.Along, settings.PlaceReachMetres));
                total += odds[c] * axis.Widths[c];
                length += axis.Widths[c];
            }

            // Places shape where a leak would be; only product and history say how likely there is one.
            var rate = settings.LeaksPerMetre * (IsMeat(fixture) ? settings.MeatWeight : 1) * length / total;
            for (var c = 0; c < axis.Count; c++)
            {
                if (axis.Owner[c] != f) continue;
                expected[c] = rate * odds[c] * axis.Widths[c] * History(fixture, axis.ToFront(f, axis.Centres[c]), history)
                    * Checks(fixture, axis.ToFront(f, axis.Centres[c]), settings);
            }
        }

        return expected;
    }

    /// <summary>Per cell the panel behind which a leak was confirmed; null elsewhere.</summary>
    public static string?[] Found(LineUpAxis axis, LocateSettings settings)
    {
        var found = new string?[axis.Count];
        for (var c = 0; c < axis.Count; c++)
        {
            var fixture = axis.Fixtures[axis.Owner[c]];
            var along = axis.ToFront(axis.Owner[c], axis.Centres[c]);
            found[c] = settings.Checked.Where(k => k.LeakFound && Behind(fixture, along, k)).Select(k => k.Panel).FirstOrDefault();
        }

        return found;
    }

    /// <summary>How many times likelier a leak is where one was confirmed.</summary>
    public static double FoundOdds(LocateSettings settings) => 1 / settings.PanelMissChance / settings.LeaksPerMetre;

    /// <summary>Share of the sources outside the cases that lie above a case, whose fans draw their gas in.</summary>
    public const double AboveShare = 0.8;

    private const double PipeNearMetres = 1.5;
    private const double PipeOdds = 3;

    /// <summary>Expected sources above a line-up, per cell: raised where a pipe run or a drop on the plan passes.</summary>
    public static double[] Above(Plan plan, LineUpAxis axis, LocateSettings settings)
    {
        var expected = new double[axis.Count];
        for (var c = 0; c < axis.Count; c++)
        {
            var at = axis.PointAt(axis.Centres[c]);
            var passed = plan.Pipes.Any(p => OffCaseSources.IsAbove(p) && p.Path.Project(at).Distance < PipeNearMetres) || plan.Drops.Any(d => d.At.DistanceTo(at) < PipeNearMetres);
            expected[c] = axis.Widths[c] * (passed ? PipeOdds : 1);
        }

        // What passes shapes where such a source would be, not how likely there is one.
        var share = AboveShare * settings.ElsewhereShare * settings.LeaksPerMetre * axis.Length / expected.Sum();
        for (var c = 0; c < axis.Count; c++) expected[c] *= share;
        return expected;
    }

    /// <summary>Places along a fixture's front where leaks gather, and their odds.</summary>
    public static IReadOnlyList<(double Along, double Weight, string Name)> Features(Plan plan, Fixture fixture, LocateSettings settings)
    {
        var length = fixture.Front!.Length;
        var features = new List<(double, double, string)>();
        features.AddRange(PlanPlaces.DropsOver(plan, fixture).Select(d => (d.Along, settings.DropWeight, "drop " + d.Drop.Id)));

        if (fixture.ValveEnd is { } end)
        {
            var atLeft = end == CaseEnd.Left;
            features.Add((atLeft == fixture.FrontStartsLeft ? 0.2 : length - 0.2, settings.ValveEndWeight, "the valve end"));
        }

        features.AddRange(fixture.Drains.Select(d => (d, settings.DrainWeight, "a drain")));
        features.AddRange(fixture.Sections.Skip(1).Select(s => (s.From, settings.JointWeight, "a section joint")));
        return features;
    }

    /// <summary>True for cases of meat, poultry or fish.</summary>
    public static bool IsMeat(Fixture fixture)
    {
        var words = (fixture.Product + " " + fixture.Name).ToLowerInvariant();
        return words.Contains("meat", StringComparison.Ordinal) || words.Contains("poultry", StringComparison.Ordinal)
            || words.Contains("beef", StringComparison.Ordinal) || words.Contains("seafood", StringComparison.Ordinal);
    }

    private static double History(Fixture fixture, double along, IReadOnlyList<LeakPrior> history)
    {
        var odds = 1.0;
        foreach (var prior in history)
        {
            if (prior.Fixture != fixture.Id) continue;
            odds *= prior.Along is { } place ? 1 + ((prior.Weight - 1) * Bump(along - place, HistoryReachMetres)) : prior.Weight;
        }

        return Math.Max(odds, 1e-6);
    }

    private static double Checks(Fixture fixture, double along, LocateSettings settings)
    {
        var odds = 1.0;
        foreach (var check in settings.Checked)
        {
            if (Behind(fixture, along, check)) odds *= check.LeakFound ? FoundOdds(settings) : settings.PanelMissChance;
        }

        return odds;
    }

    private static bool Behind(Fixture fixture, double along, PanelCheck check) =>
        fixture.Panels.FirstOrDefault(p => p.Id == check.Panel) is { } panel && along >= panel.From && along <= panel.To;

    private static double Bump(double distance, double reach) => Math.Exp(-0.5 * distance * distance / (reach * reach));
}
