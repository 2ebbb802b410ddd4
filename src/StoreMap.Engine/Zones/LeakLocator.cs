using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>Says of a visit which fixture leaks, where along it, and which panel to lift first; and of the others how small a leak
/// would have shown.</summary>
/// <remarks>Bayesian comparison of none, one and two leaks per line-up, a neighbour's gas, and sources outside the cases, with the air
/// of the case, strengths and noise summed over stated priors. Model, formulas, sources and limits: docs/zones.md.</remarks>
public static class LeakLocator
{
    /// <summary>From this probability on the leak with more gas comes first, not the still likelier one: readings with fans on seldom say more,
    /// since they can hardly tell a leak from a line above the case.</summary>
    private const double LikelyEnough = 0.7;

    /// <summary>Locates the leaks of one visit.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="survey">The latest visit with its backgrounds taken off.</param>
    /// <param name="history">What earlier visits and the service record say; may be empty.</param>
    /// <param name="settings">Prior weights and costs; null for the defaults.</param>
    /// <param name="progress">Told the share done, in [0, 1]; may be null.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>Zones, opening order, sources elsewhere, fixtures with no leak seen, fixtures not probed and the next best probe.</returns>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static LocateResult Locate(
        Plan plan, NetSurvey survey, IReadOnlyList<LeakPrior> history, LocateSettings? settings = null,
        IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        settings ??= new LocateSettings();
        var scene = Scene.Of(plan, survey, history, settings, progress, cancel);
        var zones = new List<LeakZone>();
        foreach (var answer in scene.Answers) zones.AddRange(answer.Zones);
        zones.AddRange(scene.WalkInZones);
        // Of leaks that are likely enough the one with the most gas comes first.
        zones = [.. zones.Select(z => HitOnlyZones.Of(z, survey)).OrderByDescending(z => Math.Min(LikelyEnough, Math.Round(z.Probability, 4))).ThenByDescending(z => z.PeakPpm).ThenBy(z => PlanOrder(plan, z.Fixture)).ThenBy(z => z.From ?? 0)];
        var elsewhere = scene.Answers.SelectMany(a => a.Elsewhere).OrderByDescending(e => e.Probability).ToList();
        var told = ExplainedHits.Tell(plan, survey, zones, elsewhere);
        return new LocateResult(
            zones, OpeningOrder.Of(plan, zones), elsewhere, NoLeaks(plan, scene, zones, told, settings.LeastZoneProbability), [.. scene.NotProbed],
            NextBestProbe.Find(plan, scene, zones, settings))
        {
            Lifted = settings.Checked,
        };
    }

    private static int PlanOrder(Plan plan, string fixture) => plan.Fixtures.Select((f, i) => (f.Id, i)).FirstOrDefault(p => p.Id == fixture).i;

    private static List<NoLeakSeen> NoLeaks(Plan plan, Scene scene, List<LeakZone> zones, IReadOnlyDictionary<string, string?> told, double leastZone)
    {
        var list = new List<NoLeakSeen>();
        foreach (var fixture in plan.Fixtures)
        {
            if (zones.Any(z => z.Fixture == fixture.Id) || scene.NotProbed.Contains(fixture.Id)) continue;
            var hasGas = told.TryGetValue(fixture.Id, out var cause);
            if (hasGas && cause is null) continue;
            var none = scene.NoLeakSeenOn(plan, fixture, hasGas);
            // Up to the least probability of a zone, a leak there has not been ruled out; nor where a likelier source outside is told alone.
            var untold = scene.Answers.SelectMany(a => a.Untold).Where(u => u.Study.Axis.Fixtures.Any(f => f.Id == fixture.Id)).Select(u => u.Probability).DefaultIfEmpty(0).Max();
            none = none with { Probability = Math.Min(none.Probability, 1 - untold) };
            list.Add(hasGas ? none with { Probability = Math.Min(none.Probability, 1 - leastZone), ExplainedBy = cause } : none);
        }

        return list;
    }
}
