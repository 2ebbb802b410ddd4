using StoreMap.Plans;
using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>Named groups of stores with one leak.</summary>
internal static class Groups
{
    private const double WeakPpm = 5;
    private const double StrongPpm = 20;

    /// <summary>Groups in the order of the tables.</summary>
    public static IReadOnlyList<(string Name, Func<Outcome, bool> Holds)> All { get; } =
    [
        ("all", _ => true),
        ("smooth", o => o.Store.Roughness == Roughness.Smooth),
        ("rough", o => o.Store.Roughness == Roughness.Rough),
        ("cases (no walk-ins)", o => Kind(o) != FixtureKind.WalkIn),
        ("weak (2 to 5 ppm)", o => o.CoarsePpm[0] < WeakPpm),
        ("strong (20 ppm up)", o => o.CoarsePpm[0] >= StrongPpm),
        ("at an end", o => Leak(o).Site == LeakSite.End),
        ("at a section joint", o => Leak(o).Site == LeakSite.Joint),
        ("at a drop", o => Leak(o).Site == LeakSite.Drop),
        ("coil, under a fan bay", o => Leak(o).Site == LeakSite.Coil),
        ("in the base", o => Leak(o).Site == LeakSite.Base),
        ("open case", o => Kind(o) == FixtureKind.OpenCase),
        ("doors", o => Kind(o) == FixtureKind.DoorCase),
        ("island", o => Kind(o) == FixtureKind.IslandCase),
        ("service case", o => Kind(o) == FixtureKind.ServiceCase),
        ("walk-in", o => Kind(o) == FixtureKind.WalkIn),
        ("joined line-up", o => Joined(o)),
        ("metric store", o => o.Store.Plan.Units == LengthUnit.Metre),
    ];

    /// <summary>The kind of the leaking fixture.</summary>
    public static FixtureKind Kind(Outcome outcome) => outcome.Store.Plan.FindFixture(Leak(outcome).Fixture)!.Kind;

    private static StoreLeak Leak(Outcome outcome) => outcome.Store.Leaks[0];

    private static bool Joined(Outcome outcome)
    {
        var lineUp = outcome.Store.Plan.FindFixture(Leak(outcome).Fixture)!.LineUp;
        return lineUp is not null && outcome.Store.Plan.Fixtures.Count(f => f.LineUp == lineUp) > 1;
    }
}
