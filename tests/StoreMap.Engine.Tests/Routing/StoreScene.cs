using StoreMap.Plans;

namespace StoreMap.Tests.Routing;

/// <summary>Small stores for tests of the probe methods. Lengths in feet as the trade gives them.</summary>
internal static class StoreScene
{
    public const double Foot = LengthUnits.MetresPerFoot;

    public static PlanPoint Feet(double x, double y) => new(x * Foot, y * Foot);

    public static List<PlanPoint> Box(double x1, double y1, double x2, double y2) => [Feet(x1, y1), Feet(x2, y1), Feet(x2, y2), Feet(x1, y2)];

    /// <summary>A case with its front along y, from x, facing down.</summary>
    public static Fixture Case(string id, FixtureKind kind, double x, double y, double length, string? lineUp = null, params double[] sections)
    {
        var lengths = sections.Length > 0 ? sections : [length];
        var ends = lengths.Select((_, i) => lengths.Take(i + 1).Sum()).ToArray();
        return new()
        {
            Id = id,
            Tag = id,
            Kind = kind,
            LineUp = lineUp,
            Outline = Box(x, y, x + length, y + 3),
            Front = new PlanLine([Feet(x, y), Feet(x + length, y)]),
            Back = kind == FixtureKind.IslandCase ? new PlanLine([Feet(x, y + 3), Feet(x + length, y + 3)]) : null,
            Sections = [.. lengths.Select((l, i) => new Section(i + 1, (ends[i] - l) * Foot, ends[i] * Foot, 1, "A1"))],
        };
    }

    public static Fixture WalkIn(string id, double x, double y, double width, double depth) => new()
    {
        Id = id,
        Tag = id,
        Kind = FixtureKind.WalkIn,
        Outline = Box(x, y, x + width, y + depth),
        Opening = new PlanSegment(Feet(x + (width / 2) - 1.5, y), Feet(x + (width / 2) + 1.5, y)),
        Coils = [Feet(x + (width / 2), y + depth - 2)],
        WalkInCircuit = "A1",
    };

    public static Plan Store(params Fixture[] fixtures) => new()
    {
        Id = "store",
        Name = "Store",
        Units = LengthUnit.Foot,
        Outline = Box(0, 0, 200, 100),
        Entrances = [new("E1", Feet(100, 0))],
        Fixtures = fixtures,
        Circuits = [new("A1", "A", [], null), new("S1", "S", [], null), new("N1", "N", [], null)],
        Systems = [new("A", SystemType.Direct, "R-448A", 600), new("S", SystemType.Secondary, null, null), new("N", SystemType.Direct, "R-717", 100)],
    };
}
