using System.Diagnostics;
using StoreMap.Plans;
using StoreMap.Simulation.Stores;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Evaluation;

/// <summary>What to do with a store beside the three passes.</summary>
/// <param name="Continuous">Walk a continuous log.</param>
/// <param name="Smallest">Test the stated smallest size.</param>
/// <param name="Advice">Follow the next best probe as well.</param>
/// <param name="Knowing">Ask one who knows every parameter as well.</param>
/// <param name="Dump">Folder for the visit's files; null for none.</param>
public sealed record JudgeParts(bool Continuous, bool Smallest, bool Advice, bool Knowing, string? Dump);

/// <summary>Surveys one simulated store stage by stage and scores what the locator and its rivals say.</summary>
public sealed class StoreJudge
{
    private const double Ft = LengthUnits.MetresPerFoot;
    private static readonly Stage[] Stops = [Stage.Coarse, Stage.CloseIn, Stage.FansOff];

    private readonly SimulatedStore store;
    private readonly Outcome outcome;

    private StoreJudge(SimulatedStore store, Outcome outcome) => (this.store, this.outcome) = (store, outcome);

    /// <summary>Judges a store.</summary>
    /// <param name="store">The store.</param>
    /// <param name="parts">What to do beside the three passes.</param>
    public static Outcome Judge(SimulatedStore store, JudgeParts parts)
    {
        var clock = Stopwatch.StartNew();
        var surveyor = new Surveyor(store);
        var files = new List<string>();
        var counts = new List<int>();
        SurveyPasses.Coarse(store, surveyor);
        Note();
        var coarse = surveyor.Noted.ToList();
        var hits = SurveyPasses.Hits(store, surveyor);
        SurveyPasses.CloseIn(store, surveyor, hits);
        Note();
        SurveyPasses.FansOff(store, surveyor, hits);
        Note();
        var shares = LeakShares.Of(store, coarse);
        var outcome = new Outcome { Store = store, CoarsePpm = shares.CoarsePpm, StandOut = shares.StandOut, Readings = counts };
        outcome.SimulateSeconds = clock.Elapsed.TotalSeconds;
        var judge = new StoreJudge(store, outcome);
        for (var i = 0; i < Stops.Length; i++)
        {
            // Without a hit the technician goes home after the coarse pass.
            if (i > 0 && hits.Count == 0) break;
            var result = judge.Score(Stops[i], Judged.Readings(store, surveyor.Monitor, files[i]));
            if (i == Stops.Length - 1 && parts.Advice && store.Case == StoreCase.OneLeak && outcome.Detectable && store.Leaks[0].Site != LeakSite.WalkIn)
            {
                outcome.Advised = AdvisedWalk.Run(store, result, counts[i] - counts[0]);
            }
        }

        if (parts.Knowing && store.Case == StoreCase.OneLeak && outcome.Detectable && store.Leaks[0].Site != LeakSite.WalkIn)
        {
            outcome.Knowing = KnowingRival.Answers(store, surveyor, counts);
        }

        if (parts.Dump is { } folder) Dump.Write(store, surveyor, files, folder);
        if (parts.Continuous) judge.Continuous();
        if (parts.Smallest && store.Case == StoreCase.OneLeak && store.Leaks[0].Site != LeakSite.WalkIn) outcome.Twice = SmallestTest.Run(store);
        return outcome;

        void Note()
        {
            files.Add(surveyor.ReadingsCsv());
            counts.Add(surveyor.Noted.Count);
        }
    }

    private void Continuous()
    {
        var surveyor = new Surveyor(store);
        var marks = SurveyPasses.Continuous(store, surveyor);
        Score(Stage.Continuous, Judged.Log(store, surveyor.Monitor, surveyor.LogCsv(), marks));
    }

    private LocateResult Score(Stage stage, NetSurvey survey)
    {
        var clock = Stopwatch.StartNew();
        var result = Judged.Locate(store.Plan, survey);
        outcome.LocateSeconds.Add(clock.Elapsed.TotalSeconds);
        outcome.Said[stage] = Detail.InShort(store.Plan, result);
        outcome.Claims.AddRange(ClaimsOf.Result(store, stage, result));
        // The continuous log does not enter walk-ins.
        if (stage == Stage.Continuous && store.Leaks.Any(l => l.Site == LeakSite.WalkIn)) return result;
        if (store.Case == StoreCase.OneLeak) ScoreOne(stage, survey, result, store.Leaks[0]);
        else outcome.Stores.Add(StoreScore.Of(store, stage, result));
        return result;
    }

    private void ScoreOne(Stage stage, NetSurvey survey, LocateResult result, StoreLeak leak)
    {
        var fixture = store.Plan.FindFixture(leak.Fixture)!;
        var first = result.Zones.Count > 0 ? result.Zones[0] : null;
        (string, PlanPoint)? named = first is null ? null : (first.Fixture, PlaceOf(first));
        outcome.Places.Add(Answer(Method.StoreMap, stage, named, result.Open, fixture, leak));
        foreach (var method in new[] { Method.Habit, Method.Kriging, Method.FixtureCentre })
        {
            outcome.Places.Add(Answer(method, stage, Rivals.Answer(method, store.Plan, survey, stage), [], fixture, leak));
        }

        if (result.Zones.FirstOrDefault(z => z.Fixture == fixture.Id) is { } zone) outcome.Zones.Add(ZoneScore.Of(stage, zone, leak));
    }

    private PlanPoint PlaceOf(LeakZone zone) =>
        zone.Center is { } center ? store.Plan.FindFixture(zone.Fixture)!.Front!.PointAt(center) : zone.At;

    private PlaceAnswer Answer(Method method, Stage stage, (string Fixture, PlanPoint At)? named, IReadOnlyList<string> open, Fixture fixture, StoreLeak leak)
    {
        if (named is not { } place) return new PlaceAnswer(method, stage, false, double.PositiveInfinity, null);
        // A place on an island's back is as far along as its foot on the front.
        var at = place.Fixture == fixture.Id && fixture.Front is { } front ? front.PointAt(front.Project(place.At).Along) : place.At;
        int? panels = fixture.Front is null ? null : Opening.Count(store.Plan, open, at, fixture, leak.Along);
        return new PlaceAnswer(method, stage, place.Fixture == fixture.Id, at.DistanceTo(leak.At) / Ft, panels);
    }
}
