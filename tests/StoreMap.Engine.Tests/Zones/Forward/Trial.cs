using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Tests.Zones.Forward;

/// <summary>What a located simulated visit came to, lengths in feet.</summary>
internal sealed record TrialScore
{
    public required int Seed { get; init; }

    /// <summary>1 coarse pass, 2 with close-in, 3 with fans off.</summary>
    public required int Stage { get; init; }

    public required string Group { get; init; }

    /// <summary>Distance between the middle of the likeliest zone and the leak; 99 without a zone.</summary>
    public required double Error { get; init; }

    /// <summary>The same for the place of the highest reading.</summary>
    public required double HabitError { get; init; }

    public required bool RightFixture { get; init; }

    public required bool HabitRightFixture { get; init; }

    public required bool Covered { get; init; }

    public required double Width { get; init; }

    public required double Opened { get; init; }

    public required double Probability { get; init; }

    public required double Elsewhere { get; init; }
}

/// <summary>Simulated visits to simulated stores, located.</summary>
internal static class Trial
{
    private const double Foot = LengthUnits.MetresPerFoot;

    /// <summary>One leak of 0.3 to 40 oz a day anywhere on a front; empty when the coarse pass has no hit.</summary>
    public static List<TrialScore> SingleLeak(int seed, bool rough, int stages = 3)
    {
        var random = new Random(seed);
        var store = ForwardStore.Make(random, 3, seed % 2 == 0);
        var aisle = random.Next(store.Aisles.Count);
        var side = random.Next(2);
        var lineUp = store.Aisles[aisle][side];
        var air = new ForwardAir(random, rough, store.Aisles[aisle]);
        var joints = lineUp.Joints.Order().ToArray();
        // A third anywhere, a third at ends and joints, a third by a drop.
        var s = random.Next(3) switch
        {
            0 when joints.Length > 0 => joints[random.Next(joints.Length)] + (0.3 * (random.NextDouble() - 0.5)),
            1 when random.Next(2) == 0 => random.Next(2) == 0 ? 0.3 * random.NextDouble() : lineUp.Length - (0.3 * random.NextDouble()),
            _ => random.NextDouble() * lineUp.Length,
        };
        var kg = Strength(random);
        air.Leak(side, s, kg);
        var visit = new ForwardVisit(random, store, [.. Enumerable.Range(0, 3).Select(a => a == aisle ? air : null)]);
        var scores = new List<TrialScore>();
        for (var stage = 1; stage <= stages; stage++)
        {
            if (stage == 1) visit.Coarse();
            if (stage == 2) visit.CloseIn();
            if (stage == 3) visit.FansOff();
            if (!visit.HasHit) break;
            var result = Locating.Locate(store.Plan, visit.Survey);
            Peek?.Invoke(store, lineUp, s, kg, visit, result, stage);
            scores.Add(Judge(seed, stage, store, lineUp, s, visit, result));
        }

        return scores;
    }

    public static Action<ForwardStore, ForwardLineUp, double, double, ForwardVisit, LocateResult, int>? Peek { get; set; }

    /// <summary>Two leaks at least 8 ft apart in one line-up, the second a stated share of the first; how many have a zone of their own that
    /// holds them or comes within 1 ft, per stage, and zones beyond those; empty when the coarse pass has no hit.</summary>
    public static List<(int Stage, int Found, int False)> TwoLeaks(int seed, bool rough, double share)
    {
        var random = new Random(seed);
        var store = ForwardStore.Make(random, 3, seed % 2 == 0);
        var aisle = random.Next(store.Aisles.Count);
        var side = random.Next(2);
        var lineUp = store.Aisles[aisle][side];
        var air = new ForwardAir(random, rough, store.Aisles[aisle]);
        var apart = (8 + (6 * random.NextDouble())) * Foot;
        var first = random.NextDouble() * Math.Max(0.1, lineUp.Length - apart);
        double[] places = [first, Math.Min(first + apart, lineUp.Length - 0.05)];
        var strength = 20 * Math.Pow(10, random.NextDouble());
        var strong = random.Next(2);
        air.Leak(side, places[strong], strength);
        air.Leak(side, places[1 - strong], strength * share);
        var visit = new ForwardVisit(random, store, [.. Enumerable.Range(0, 3).Select(a => a == aisle ? air : null)]);
        var scores = new List<(int, int, int)>();
        for (var stage = 1; stage <= 3; stage++)
        {
            if (stage == 1) visit.Coarse();
            if (stage == 2) visit.CloseIn();
            if (stage == 3) visit.FansOff();
            if (!visit.HasHit) break;
            var result = Locating.Locate(store.Plan, visit.Survey);
            Peek?.Invoke(store, lineUp, places[0], places[1] * 1000, visit, result, stage);
            var free = result.Zones.Where(z => z.From is not null && z.Probability >= 0.5).ToList();
            var all = free.Count;
            var found = 0;
            foreach (var s in places)
            {
                var (fixture, along) = lineUp.At(s);
                var zone = free.FirstOrDefault(z => z.Fixture == fixture.Id && along >= z.From - Foot && along <= z.To + Foot);
                if (zone is null) continue;
                free.Remove(zone);
                found++;
            }

            scores.Add((stage, found, all - found));
        }

        return scores;
    }

    private static TrialScore Judge(int seed, int stage, ForwardStore store, ForwardLineUp lineUp, double s, ForwardVisit visit, LocateResult result)
    {
        var (fixture, along) = lineUp.At(s);
        var zone = result.Zones.FirstOrDefault(z => z.Fixture == fixture.Id);
        var top = result.Zones.FirstOrDefault(z => z.Center is not null);
        var habit = visit.Highest(stage == 3 ? AirState.FansOff : AirState.FansOn)!;
        var leak = new PlanPoint(lineUp.Left + s, lineUp.FrontY);
        var opened = result.Open.ToList().IndexOf(fixture.Panels.First(p => along >= p.From - 1e-9 && along <= p.To + 1e-9).Id) + 1;
        return new TrialScore
        {
            Seed = seed, Stage = stage, Group = fixture.Kind.ToString(),
            Error = top is null ? 99 : store.Plan.FindFixture(top.Fixture)!.Front!.PointAt(top.Center!.Value).DistanceTo(leak) / Foot,
            HabitError = habit.Reading.Place.At.DistanceTo(leak) / Foot,
            RightFixture = top?.Fixture == fixture.Id, HabitRightFixture = habit.Reading.Place.Fixture == fixture.Id,
            Covered = zone is not null && along >= zone.From && along <= zone.To,
            Width = zone is null ? 99 : (zone.To!.Value - zone.From!.Value) / Foot,
            Opened = opened > 0 ? opened : result.Open.Count + 1, Probability = zone?.Probability ?? 0,
            Elsewhere = result.Elsewhere.Sum(e => e.Probability),
        };
    }

    /// <summary>0.3 to 40 oz a day in kilograms a year, even on the logarithm.</summary>
    public static double Strength(Random random) => 3.1 * Math.Pow(414 / 3.1, random.NextDouble());
}
