using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>What one neighbourhood came to.</summary>
/// <param name="Zones">Its zones.</param>
/// <param name="Elsewhere">Its sources outside the cases.</param>
/// <param name="Leaks">Line-ups with a zone, their posteriors, and the probabilities of a leak in them and of a source above them.</param>
/// <param name="Untold">Leaks left untold beside a likelier source outside, with their probability.</param>
internal sealed record SceneAnswer(
    IReadOnlyList<LeakZone> Zones, IReadOnlyList<Elsewhere> Elsewhere, IReadOnlyList<(LineUpStudy Study, OneLeak Leak, double Probability, double Above)> Leaks,
    IReadOnlyList<(LineUpStudy Study, double Probability)> Untold);

/// <summary>A visit laid out for inference: line-ups, walk-ins and open air, neighbourhoods found and answered.</summary>
internal sealed class Scene
{
    /// <summary>Line-ups whose gas readings are this near are judged together, metres.</summary>
    private const double SharedAirMetres = 8;

    private const double PassesMetres = 2.5;

    /// <summary>Probability from which a source outside the cases is told alone.</summary>
    private const double OutsideSure = 0.8;

    /// <summary>Sources above two line-ups this near each other are one, metres.</summary>
    private const double OneSourceMetres = 4;

    /// <summary>Line-ups judged together at most.</summary>
    private const int Together = 4;

    /// <summary>Case this near a gas reading counts as under the gas, metres.</summary>
    private const double UnderGasMetres = 1.5;

    /// <summary>Log odds of a leak by a line-up's own readings from which its neighbourhood is judged.</summary>
    private const double WorthALook = -3.5;

    private readonly List<LineUpStudy> studies = [];
    private readonly List<WalkInStudy> walkIns = [];
    private AisleWays? ways;

    private Scene()
    {
    }

    /// <summary>Neighbourhoods with gas.</summary>
    public List<SceneAnswer> Answers { get; } = [];

    /// <summary>Zones in walk-ins.</summary>
    public List<LeakZone> WalkInZones { get; } = [];

    /// <summary>Fixtures without a reading, in the plan's order.</summary>
    public List<string> NotProbed { get; } = [];

    /// <summary>Line-ups with readings.</summary>
    public IReadOnlyList<LineUpStudy> Studies => studies;

    /// <summary>Lays out and answers.</summary>
    public static Scene Of(
        Plan plan, NetSurvey survey, IReadOnlyList<LeakPrior> history, LocateSettings settings, IProgress<double>? progress, CancellationToken cancel)
    {
        var scene = new Scene();
        var axes = LineUps.Of(plan);
        var alone = new Dictionary<LineUpStudy, OneLeak>();
        for (var a = 0; a < axes.Count; a++)
        {
            cancel.ThrowIfCancellationRequested();
            var blocks = BlockBuilder.Of(axes[a], survey);
            if (blocks.Count == 0) continue;
            var study = new LineUpStudy(axes[a], blocks, PlacePrior.Of(plan, axes[a], history, settings), PlacePrior.Above(plan, axes[a], settings), plan, RoomKeys.Of(plan, axes[a].Fixtures[0]))
            {
                Found = PlacePrior.Found(axes[a], settings), FoundOdds = PlacePrior.FoundOdds(settings),
            };
            scene.studies.Add(study);
            alone[study] = study.Fit();
            progress?.Report(0.7 * (a + 1) / axes.Count);
        }

        scene.NotProbed.AddRange(plan.Fixtures.Where(f => !survey.Readings.Any(r => Belongs(r, f))).Select(f => f.Id));
        var air = BlockBuilder.OpenAir(plan, survey);
        scene.AnswerNeighbourhoods(plan, alone, air, history, settings, cancel);
        progress?.Report(0.9);
        foreach (var fixture in plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn || f.Front is null))
        {
            var blocks = BlockBuilder.Of(fixture, survey);
            if (blocks.Count == 0) continue;
            var weight = history.Where(h => h.Fixture == fixture.Id).Aggregate(1.0, (w, h) => w * h.Weight);
            var walkIn = new WalkInStudy(plan, fixture, blocks, settings.LeaksPerWalkIn * weight);
            scene.walkIns.Add(walkIn);
            if (WalkInZone.Of(plan, walkIn, survey, history, settings) is { } zone) scene.WalkInZones.Add(zone);
        }

        progress?.Report(1);
        return scene;
    }

    /// <summary>The statement on a probed fixture without a zone; <paramref name="aboveGas"/> when a leak of its own would have to show
    /// above gas from elsewhere.</summary>
    public NoLeakSeen NoLeakSeenOn(Plan plan, Fixture fixture, bool aboveGas)
    {
        foreach (var study in studies)
        {
            var f = study.Axis.IndexOf(fixture.Id);
            if (f < 0) continue;
            var perPpmMetre = RoughStrength.PerPeakPpm(plan, fixture, 0, 1);
            var (ppm, none) = SmallestLeak.Of(study, f, aboveGas, reach => RoughStrength.PriorLogMean - Math.Log(perPpmMetre * reach));
            var middle = ppm * perPpmMetre * 1.2;
            return new NoLeakSeen(fixture.Id, none, ppm, middle / RoughStrength.RangeFactor, middle * RoughStrength.RangeFactor);
        }

        var walkIn = walkIns.First(w => w.Fixture.Id == fixture.Id);
        var (mixed, probability, low, high) = WalkInZone.Smallest(plan, walkIn, aboveGas);
        return new NoLeakSeen(fixture.Id, probability, mixed, low, high);
    }

    private static bool Belongs(NetReading reading, Fixture fixture) =>
        reading.Reading.Place.Fixture == fixture.Id
        || (fixture.Kind == FixtureKind.WalkIn && reading.Reading.Place.Fixture is null && reading.Reading.Place.Room == fixture.Id);

    private void AnswerNeighbourhoods(
        Plan plan, Dictionary<LineUpStudy, OneLeak> alone, IReadOnlyList<ReadingBlock> air, IReadOnlyList<LeakPrior> history,
        LocateSettings settings, CancellationToken cancel)
    {
        var open = studies.Where(s => s.Seen && alone[s].LogTotal - s.LogNull(null) > WorthALook).OrderByDescending(s => s.HighestNet).ToList();
        var answered = new List<LineUpStudy>();
        while (open.Count > 0)
        {
            cancel.ThrowIfCancellationRequested();
            var group = new List<LineUpStudy> { open[0] };
            open.RemoveAt(0);
            for (var i = 0; i < group.Count; i++)
            {
                foreach (var near in open.Where(o => o.Room == group[i].Room && Near(group[i], o, SharedAirMetres)).ToList())
                {
                    group.Add(near);
                    open.Remove(near);
                }
            }

            // Few explanations can be told apart at once: the strongest stand together; the rest wait, and are judged beside the strongest
            // line-up near them that was answered before, whose gas may be all they show.
            group = [.. group.OrderByDescending(s => s.HighestNet)];
            var anchor = answered.Where(a => a.Room == group[0].Room && a.HighestNet > group[0].HighestNet && Near(a, group[0], Spread.FarthestMetres))
                .OrderByDescending(a => a.HighestNet).FirstOrDefault();
            var room = anchor is null ? Together : Together - 1;
            open.AddRange(group.Skip(room));
            group = [.. group.Take(room)];
            open = [.. open.OrderByDescending(s => s.HighestNet)];
            answered.AddRange(group);
            Answers.Add(AnswerOne(plan, anchor is null ? group : [anchor, .. group], anchor is null ? 0 : 1, alone, air, history, settings));
        }
    }

    private SceneAnswer AnswerOne(
        Plan plan, List<LineUpStudy> group, int first, Dictionary<LineUpStudy, OneLeak> alone, IReadOnlyList<ReadingBlock> air,
        IReadOnlyList<LeakPrior> history, LocateSettings settings)
    {
        var hits = group.SelectMany(Gas).Select(r => r.At).ToList();
        var witnesses = studies.Where(s => !group.Contains(s) && s.Room == group[0].Room).SelectMany(s => s.Blocks)
            .Concat(air.Where(b => (b.Key.Length == 0 ? null : b.Key) == group[0].Room))
            .Where(b => b.Readings.Any(r => hits.Any(h => h.DistanceTo(r.At) < Spread.FarthestMetres))).ToList();
        var candidates = OffCaseSources.Near(plan, hits);
        var prior = settings.ElsewhereShare * (1 - PlacePrior.AboveShare) * group.Sum(s => ExpectedNear(s));
        var twos = group.Select(s => TwoLeaks.Fit(s, settings.AnotherLeakFactor, null)).ToArray();
        var further = group.Select((s, i) => twos[i] is { } two ? Math.Log(1 + Math.Exp(two.LogTotal - alone[s].LogTotal)) : 0).ToArray();
        var answer = new Neighbourhood(group, [.. group.Select(s => alone[s])], further, witnesses, candidates, prior, ways ??= new AisleWays(plan)).Answer();
        var zones = new List<LeakZone>();
        var leaks = new List<(LineUpStudy, OneLeak, double, double)>();
        var untold = new List<(LineUpStudy, double)>();
        for (var i = first; i < group.Count; i++)
        {
            if (answer.LeakProbability[i] < settings.LeastZoneProbability) continue;
            // Where a source outside is as good as sure the answer is to look there, and no panel is offered.
            if (answer.LeakProbability[i] < 1 - OutsideSure && answer.AboveProbability[i] + (first == 0 ? answer.ElsewhereProbability : 0) >= OutsideSure)
            {
                untold.Add((group[i], answer.LeakProbability[i]));
                continue;
            }

            var two = answer.Outside[i] is { } outside ? TwoLeaks.Fit(group[i], settings.AnotherLeakFactor, outside) : twos[i];
            foreach (var (leak, place, probability, partner) in LeakSplit.Of(group[i], answer.Leaks[i], two, answer.LeakProbability[i]))
            {
                var found = ZoneBuilder.Of(plan, group[i], leak, place, partner, probability, history, settings).ToList();
                zones.AddRange(found);
                if (found.Count > 0) leaks.Add((group[i], leak, probability, answer.AboveProbability[i]));
            }
        }

        return new SceneAnswer(zones, ElsewhereOf(plan, group, first, answer, candidates, settings), leaks, untold);
    }

    // Sources in the aisle or above a line-up: a pipe run is many candidates and one thing to look at, so the likeliest thing comes first,
    // then its likeliest place.
    private static List<Elsewhere> ElsewhereOf(
        Plan plan, List<LineUpStudy> group, int first, NeighbourhoodAnswer answer, IReadOnlyList<OffCaseSource> candidates, LocateSettings settings)
    {
        var found = new List<Elsewhere>();
        for (var i = first; i < group.Count; i++)
        {
            if (answer.AboveProbability[i] < settings.LeastZoneProbability) continue;
            var axis = group[i].Axis;
            var place = answer.Leaks[i].AbovePlace;
            var cell = Enumerable.Range(0, place.Length).OrderByDescending(c => place[c] / axis.Widths[c]).ThenBy(c => c).First();
            var at = axis.PointAt(axis.Centres[cell]);
            found.Add(new Elsewhere(axis.Fixtures[axis.Owner[cell]].Id, answer.AboveProbability[i], LookAt(plan, OffCaseSources.Above(plan, at), OffCaseSources.IsAbove), at));
        }

        if (first == 0 && answer.ElsewhereProbability >= settings.LeastZoneProbability)
        {
            var thing = Enumerable.Range(0, candidates.Count).GroupBy(c => candidates[c].Look)
                .OrderByDescending(g => g.Sum(c => answer.ElsewhereShares[c])).First();
            var best = thing.OrderByDescending(c => answer.ElsewhereShares[c]).ThenBy(c => c).First();
            var near = group[0].Axis.Fixtures[group[0].Axis.FixtureAt(Gas(group[0]).OrderByDescending(r => r.Net).First().S)].Id;
            var aisle = new Elsewhere(near, answer.ElsewhereProbability, LookAt(plan, candidates[best], _ => true), candidates[best].At);
            if (answer.AboveProbability[0] < settings.LeastZoneProbability) return [aisle, .. OncePlaced(found)];

            // Above the strongest line-up or in the aisle before it: one or the other, told once.
            var (likelier, other) = found[0].Probability >= aisle.Probability ? (found[0], aisle) : (aisle, found[0]);
            found[0] = likelier with { Probability = Math.Min(1, likelier.Probability + other.Probability) };
        }

        return OncePlaced(found);
    }

    // One source above two line-ups is told once, at the likelier.
    private static List<Elsewhere> OncePlaced(List<Elsewhere> found)
    {
        var told = new List<Elsewhere>();
        foreach (var source in found.OrderByDescending(e => e.Probability))
        {
            if (!told.Any(t => t.Look == source.Look && t.At!.Value.DistanceTo(source.At!.Value) < OneSourceMetres)) told.Add(source);
        }

        return told;
    }

    /// <summary>Where to look, with the pipe run that passes a place nobody drew.</summary>
    private static string LookAt(Plan plan, OffCaseSource source, Func<Pipe, bool> mayBe)
    {
        if (source.Known) return source.Look;
        var nearest = plan.Pipes.Where(mayBe).Select(p => (Pipe: p, p.Path.Project(source.At).Distance)).OrderBy(p => p.Distance).FirstOrDefault();
        return nearest.Pipe is not null && nearest.Distance <= PassesMetres ? $"{source.Look}; pipe run {nearest.Pipe.Id} ({nearest.Pipe.Level}) passes here" : source.Look;
    }

    // Leaks to be expected in the case under the gas: what a source outside is weighed against.
    private static double ExpectedNear(LineUpStudy study)
    {
        var gas = Gas(study).Select(r => r.S).ToArray();
        var sum = 0.0;
        for (var c = 0; c < study.Axis.Count; c++)
        {
            if (gas.Any(s => Math.Abs(s - study.Axis.Centres[c]) < UnderGasMetres)) sum += study.Expected[c];
        }

        return sum;
    }

    private static bool Near(LineUpStudy a, LineUpStudy b, double metres) => Gas(a).Any(x => Gas(b).Any(y => x.At.DistanceTo(y.At) < metres));

    private static IEnumerable<BlockReading> Gas(LineUpStudy study) =>
        study.Blocks.SelectMany(b => b.Readings).Where(r => r.ShowsGas);
}
