using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Tests.Zones.Forward;
using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>Single leaks put into simulated stores whose air is worked out by other physics than the locator's (time-dependent
/// advection and dispersion under wandering draughts, coupled to the aisle), then located.</summary>
public class RecoveryTests(ITestOutputHelper output)
{
    private sealed record Score(int Stage, double Error, double HabitError, bool Right, bool HabitRight, bool Covered, double Width, double Opened, string Group, double Probability);

    [Fact(Explicit = true)]
    public void Evaluation_ManyStores_PrintsTheTable()
    {
        foreach (var rough in new[] { false, true })
        {
            var scores = new List<Score>();
            var clock = System.Diagnostics.Stopwatch.StartNew();
            var located = TimeSpan.Zero;
            for (var seed = 1; seed <= 40; seed++) scores.AddRange(Single(seed, rough, ref located));
            output.WriteLine($"{(rough ? "rough" : "smooth")}: {clock.Elapsed.TotalSeconds:F0} s, locating {located.TotalMilliseconds / Math.Max(1, scores.Count):F0} ms each");
            Print(scores, "all");
            foreach (var group in scores.Select(s => s.Group).Distinct().Order()) Print([.. scores.Where(s => s.Group == group)], group);
        }
    }

    private void Print(List<Score> scores, string name)
    {
        for (var stage = 1; stage <= 3; stage++)
        {
            var of = scores.Where(s => s.Stage == stage).ToList();
            if (of.Count == 0) continue;
            output.WriteLine(FormattableString.Invariant(
                $"{name,-12} stage {stage} n {of.Count,3}: error {Quantile(of, s => s.Error, 0.5):F2}/{Quantile(of, s => s.Error, 0.9):F2} ft habit {Quantile(of, s => s.HabitError, 0.5):F2}/{Quantile(of, s => s.HabitError, 0.9):F2} right {of.Average(s => s.Right ? 1 : 0):P1} habit {of.Average(s => s.HabitRight ? 1 : 0):P1} cover {of.Average(s => s.Covered ? 1 : 0):P1} width {Quantile(of, s => s.Width, 0.5):F1} opened {of.Average(s => s.Opened):F2} p {of.Average(s => s.Probability):F2}"));
        }
    }

    private static double Quantile(List<Score> scores, Func<Score, double> of, double q)
    {
        var values = scores.Select(of).Order().ToArray();
        return values[(int)Math.Min(values.Length - 1, q * values.Length)];
    }

    private static List<Score> Single(int seed, bool rough, ref TimeSpan located)
    {
        var random = new Random(seed);
        var store = ForwardStore.Make(random, 3, seed % 2 == 0);
        var aisle = random.Next(store.Aisles.Count);
        var side = random.Next(2);
        var lineUp = store.Aisles[aisle][side];
        var air = new ForwardAir(random, rough, store.Aisles[aisle]);
        var s = random.NextDouble() * lineUp.Length;
        var strength = 3.1 * Math.Pow(414 / 3.1, random.NextDouble());
        air.Leak(side, s, strength);
        var visit = new ForwardVisit(random, store, [.. Enumerable.Range(0, 3).Select(a => a == aisle ? air : null)]);
        var (fixture, along) = lineUp.At(s);
        var scores = new List<Score>();
        for (var stage = 1; stage <= 3; stage++)
        {
            if (stage == 1) visit.Coarse();
            if (stage == 2) visit.CloseIn();
            if (stage == 3) visit.FansOff();
            if (!visit.HasHit) break;
            var clock = System.Diagnostics.Stopwatch.StartNew();
            var result = Locating.Locate(store.Plan, visit.Survey, []);
            located += clock.Elapsed;
            var zone = result.Zones.FirstOrDefault(z => z.Fixture == fixture.Id);
            var top = result.Zones.FirstOrDefault();
            var place = top is null ? double.NaN : store.Plan.FindFixture(top.Fixture)!.Front?.PointAt(top.Center ?? 0).X ?? double.NaN;
            var error = top is null ? 99 : Math.Abs(place - lineUp.Left - s) / LengthUnits.MetresPerFoot;
            var habit = visit.Highest(stage == 3 ? AirState.FansOff : AirState.FansOn)!;
            var habitError = Math.Abs(habit.Reading.Place.At.X - lineUp.Left - s) / LengthUnits.MetresPerFoot;
            var opened = 0;
            var panel = fixture.Panels.First(p => along >= p.From && along <= p.To).Id;
            opened = result.Open.ToList().IndexOf(panel) + 1;
            if (opened == 0) opened = result.Open.Count + 1;
            scores.Add(new Score(
                stage, error, habitError, top?.Fixture == fixture.Id, habit.Reading.Place.Fixture == fixture.Id,
                zone is not null && along >= zone.From && along <= zone.To, zone is null ? 99 : (zone.To!.Value - zone.From!.Value) / LengthUnits.MetresPerFoot,
                opened, fixture.Kind.ToString(), zone?.Probability ?? 0));
        }

        return scores;
    }
}
