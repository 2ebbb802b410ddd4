using System.Globalization;
using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.History;

/// <summary>Says of each probe point how many leaks its reading can be expected to show: by length, product, drops and other places where
/// leaks gather, age, and what earlier visits and the service record tell.</summary>
public static class LeakRisks
{
    private static readonly ProbePass[] AlongFronts = [ProbePass.Front, ProbePass.Doors, ProbePass.Perimeter, ProbePass.Zigzag, ProbePass.CloseIn];

    /// <summary>Makes the weights.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="points">Its probe points.</param>
    /// <param name="priors">What earlier visits and the service record say (<see cref="LeakPriors"/>); may be empty.</param>
    /// <param name="day">The day of the walk, for ages; null leaves age out.</param>
    /// <param name="settings">Null takes the defaults.</param>
    /// <returns>Weights of all points that can show a leak; their sum is the number of leaks to be expected.</returns>
    public static RiskWeights Of(
        Plan plan, IReadOnlyList<ProbePoint> points, IReadOnlyList<LeakPrior> priors, DateOnly? day = null, LeakRiskSettings? settings = null)
    {
        settings ??= new LeakRiskSettings();
        var expected = new Dictionary<string, double>();
        var reasons = new Dictionary<string, string>();
        var byFixture = points.Where(p => p.Fixture is not null).ToLookup(p => p.Fixture!);
        foreach (var axis in LineUps.Of(plan))
        {
            var cells = PlacePrior.Of(plan, axis, priors, settings.Places);
            for (var f = 0; f < axis.Fixtures.Length; f++)
            {
                var fixture = axis.Fixtures[f];
                if (fixture.Kind == FixtureKind.SelfContained) continue;
                var along = byFixture[fixture.Id].Where(p => AlongFronts.Contains(p.Pass) && p.Along is not null).ToLookup(p => p.Pass);
                for (var c = 0; c < axis.Count; c++)
                {
                    if (axis.Owner[c] != f) continue;
                    foreach (var pass in along) ToNearest(expected, [.. pass], axis.ToFront(f, axis.Centres[c]), cells[c] * Age(fixture, day, settings) / along.Count);
                }
            }
        }

        foreach (var fixture in plan.Fixtures)
        {
            var whole = History(fixture, priors) * Age(fixture, day, settings);
            if (fixture.Kind == FixtureKind.SelfContained) Share(expected, [.. byFixture[fixture.Id]], settings.LeaksPerPlugIn * whole);
            if (fixture.Kind == FixtureKind.WalkIn)
                WalkIn(expected, [.. byFixture[fixture.Id]], settings.Places.LeaksPerWalkIn * whole * (PlacePrior.IsMeat(fixture) ? settings.Places.MeatWeight : 1), settings);
            if (Reason(plan, fixture, priors, day, settings) is { } reason) reasons[fixture.Id] = reason;
        }

        foreach (var equipment in plan.Equipment) reasons[equipment.Id] = equipment.Kind.Kebab().Replace('-', ' ');
        Share(expected, [.. points.Where(p => p.Pass == ProbePass.Checklist)], settings.LeaksPerEquipment * points.Count(p => p.Pass == ProbePass.Checklist));
        return new RiskWeights { Expected = expected, Reasons = reasons };
    }

    /// <summary>A leak shows at the nearest point of each pass; of two as near (front and back of an island) at either.</summary>
    private static void ToNearest(Dictionary<string, double> expected, ProbePoint[] points, double along, double leaks)
    {
        var nearest = points.Min(p => Math.Abs(p.Along!.Value - along));
        Share(expected, [.. points.Where(p => Math.Abs(p.Along!.Value - along) <= nearest + 1e-6)], leaks);
    }

    private static void WalkIn(Dictionary<string, double> expected, ProbePoint[] points, double leaks, LeakRiskSettings settings)
    {
        ProbePoint[] coils = [.. points.Where(p => p.Pass == ProbePass.Coil)];
        ProbePoint[] others = [.. points.Except(coils)];
        var atCoils = coils.Length == 0 ? 0 : others.Length == 0 ? 1 : settings.WalkInCoilShare;
        Share(expected, coils, leaks * atCoils);
        Share(expected, others, leaks * (1 - atCoils));
    }

    private static void Share(Dictionary<string, double> expected, ProbePoint[] points, double leaks)
    {
        foreach (var point in points) expected[point.Id] = expected.GetValueOrDefault(point.Id) + (leaks / points.Length);
    }

    private static double Age(Fixture fixture, DateOnly? day, LeakRiskSettings settings) =>
        day is { } now && fixture.Installed is { } year ? 1 + (settings.AgePerYear * Math.Max(0, now.Year - year)) : 1;

    /// <summary>Odds of a fixture without a front, or of one that is a single place.</summary>
    private static double History(Fixture fixture, IReadOnlyList<LeakPrior> priors) =>
        priors.Where(p => p.Fixture == fixture.Id).Aggregate(1.0, (odds, p) => odds * p.Weight);

    private static string? Reason(Plan plan, Fixture fixture, IReadOnlyList<LeakPrior> priors, DateOnly? day, LeakRiskSettings settings)
    {
        List<string> parts = [.. priors.Where(p => p.Fixture == fixture.Id && p.Weight > 1).OrderByDescending(p => p.Weight).Select(p => p.Reason).Take(2)];
        if (PlacePrior.IsMeat(fixture)) parts.Add("meat or fish case");
        if (plan.Drops.Any(d => d.Fixtures.Contains(fixture.Id))) parts.Add("line drop");
        if (day is { } now && fixture.Installed is { } year && settings.AgePerYear > 0 && now.Year > year)
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"{now.Year - year} years old"));
        return parts.Count == 0 ? null : string.Join("; ", parts);
    }
}
