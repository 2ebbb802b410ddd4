using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>Makes simulated stores, the same from the same run seed and number.</summary>
public static class StoreMaker
{
    private const double Ft = LengthUnits.MetresPerFoot;

    // Of each 25 stores: 14 with one leak, 3 clean, 4 with two leaks, 3 with a source off the cases, 1 with a spray.
    private const string Cases = "OCOTOEOXOOCOTOXOOEOCOXOAO";

    /// <summary>Makes a store.</summary>
    /// <param name="runSeed">Seed of the run.</param>
    /// <param name="number">Number of the store, from 0; even numbers are smooth, odd ones rough.</param>
    public static SimulatedStore Make(ulong runSeed, int number)
    {
        var seed = (runSeed * 1_000_003) + (ulong)number;
        var noise = new SeededNoise(seed).Fork(7);
        var roughness = number % 2 == 0 ? Roughness.Smooth : Roughness.Rough;
        var equal = (number / Cases.Length) % 2 == 0;
        var what = Cases[number % Cases.Length] switch
        {
            'O' => StoreCase.OneLeak,
            'T' => equal ? StoreCase.TwoEqual : StoreCase.OneTenth,
            'E' => equal ? StoreCase.OneTenth : StoreCase.TwoEqual,
            'X' => StoreCase.OffCase,
            'A' => StoreCase.Aerosol,
            _ => StoreCase.Clean,
        };
        var template = StoreTemplates.Names[noise.Below(StoreTemplates.Names.Count)];
        var layout = LayoutDocument.FromJson(StoreTemplates.Draw(number, template, what == StoreCase.Aerosol || noise.Chance(0.3), noise.Fork(1)));
        var leaks = Leaks(layout.Plan, what, noise.Fork(2));
        var spray = what == StoreCase.Aerosol ? noise.Between(4, 25) : 0;
        return new SimulatedStore(number, seed, roughness, what, template, layout, leaks, spray > 0 ? "R2" : null, spray);
    }

    /// <summary>The same store with other leaks, everything else alike.</summary>
    public static SimulatedStore With(SimulatedStore store, IReadOnlyList<StoreLeak> leaks) =>
        store with { Leaks = leaks, Case = leaks.Count == 0 ? StoreCase.Clean : store.Case };

    private static IReadOnlyList<StoreLeak> Leaks(Plan plan, StoreCase what, SeededNoise noise)
    {
        switch (what)
        {
            case StoreCase.OneLeak:
                return [One(plan, noise, noise.LogBetween(0.3, 40))];
            case StoreCase.TwoEqual or StoreCase.OneTenth:
                var strength = noise.LogBetween(4, 40);
                var first = InCase(plan, noise, strength);
                return [first, Second(plan, first, what == StoreCase.TwoEqual ? strength : strength / 10, noise)];
            case StoreCase.OffCase:
                return [OffCase(plan, noise)];
            default:
                return [];
        }
    }

    private static StoreLeak One(Plan plan, SeededNoise noise, double strength)
    {
        var walkIns = plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn).ToList();
        if (!noise.Chance(0.08)) return InCase(plan, noise, strength);
        var box = noise.Pick(walkIns);
        var (low, high) = (new PlanPoint(box.Outline.Min(p => p.X), box.Outline.Min(p => p.Y)), new PlanPoint(box.Outline.Max(p => p.X), box.Outline.Max(p => p.Y)));
        var at = noise.Chance(0.7)
            ? box.Coils[0] + new PlanPoint(noise.Between(-0.3, 0.2), noise.Between(-0.8, 0.8))
            : new PlanPoint(noise.Between(low.X + 0.3, high.X - 0.3), noise.Between(low.Y + 0.3, high.Y - 0.3));
        return new StoreLeak(LeakSite.WalkIn, box.Id, 0, at, strength, noise.LogNormal(1, 0.4));
    }

    private static StoreLeak InCase(Plan plan, SeededNoise noise, double strength)
    {
        var axis = noise.Pick(CaseAxis.Of(plan));
        var roll = noise.Uniform();
        var (s, site) = roll switch
        {
            < 0.15 => (noise.Chance(0.5) ? noise.Between(0.02, 1 * Ft) : axis.Length - noise.Between(0.02, 1 * Ft), LeakSite.End),
            < 0.33 when axis.Joints.Count > 0 => (noise.Pick(axis.Joints) + noise.Between(-0.1, 0.1), LeakSite.Joint),
            < 0.5 when DropPlaces(plan, axis) is { Count: > 0 } drops => (noise.Pick(drops) + noise.Between(-0.2, 0.2), LeakSite.Drop),
            < 0.7 => (noise.Between(0, axis.Length), LeakSite.Coil),
            < 0.9 => (noise.Between(0, axis.Length), LeakSite.Interior),
            _ => (noise.Between(0, axis.Length), LeakSite.Base),
        };
        return At(axis, s, site, strength, noise);
    }

    private static StoreLeak Second(Plan plan, StoreLeak first, double strength, SeededNoise noise)
    {
        var sameLineUp = noise.Chance(0.5);
        var axis = CaseAxis.Of(plan).First(a => a.Fixtures.Any(f => f.Id == first.Fixture));
        if (sameLineUp && axis.Length > 12 * Ft)
        {
            var s1 = axis.ToAxis(first.Fixture!, first.Along);
            for (var attempt = 0; attempt < 40; attempt++)
            {
                var s = noise.Between(0, axis.Length);
                if (Math.Abs(s - s1) >= 8 * Ft) return At(axis, s, LeakSite.Interior, strength, noise);
            }
        }

        while (true)
        {
            var leak = InCase(plan, noise, strength);
            if (!axis.Fixtures.Any(f => f.Id == leak.Fixture) && leak.At.DistanceTo(first.At) >= 8 * Ft) return leak;
        }
    }

    private static StoreLeak OffCase(Plan plan, SeededNoise noise)
    {
        var axis = noise.Pick(CaseAxis.Of(plan));
        var s = noise.Between(0, axis.Length);
        var (fixture, along) = axis.At(s);
        var front = fixture.Front!.PointAt(along);
        var outward = fixture.OutwardAt(along);
        var strength = noise.LogBetween(5, 80);
        if (plan.Pipes.Count > 0 && noise.Chance(0.6))
        {
            var pipe = noise.Pick(plan.Pipes);
            return new StoreLeak(LeakSite.Overhead, null, 0, pipe.Path.PointAt(noise.Between(0, pipe.Path.Length)), strength, 1);
        }

        // A line that nobody drew: over the case, or coming down beside it.
        return noise.Chance(0.5)
            ? new StoreLeak(LeakSite.Overhead, null, 0, front + (outward * noise.Between(-1, 0.8)), strength, 1)
            : new StoreLeak(LeakSite.BesideDrop, null, 0, front + (outward * noise.Between(1.4, 1.8)), strength, 1);
    }

    private static StoreLeak At(CaseAxis axis, double s, LeakSite site, double strength, SeededNoise noise)
    {
        var (fixture, along) = axis.At(Math.Clamp(s, 0.01, axis.Length - 0.01));
        return new StoreLeak(site, fixture.Id, along, fixture.Front!.PointAt(along), strength, noise.LogNormal(1, 0.4));
    }

    private static List<double> DropPlaces(Plan plan, CaseAxis axis) =>
        [.. plan.Drops.Where(d => axis.Fixtures.Any(f => d.Fixtures.Contains(f.Id))).Select(d => axis.ToAxis(d.Fixtures[0], plan.FindFixture(d.Fixtures[0])!.Front!.Project(d.At).Along))];
}
