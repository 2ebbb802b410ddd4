using CsCheck;
using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Tests.Routing;

/// <summary>Random small stores: line-ups, islands, a walk-in and shelving on a grid of aisles wide enough to walk. Metres, on whole
/// centimetres, so that a store mirrored or turned is the same to the last bit but for rounding.</summary>
internal static class RandomStore
{
    private const double Wide = 40;
    private const double Deep = 26;

    public static Gen<Plan> Plans { get; } =
        from kinds in Gen.Int[0, 6].Array[12]
        from lengths in Gen.Int[200, 700].Array[12]
        from shifts in Gen.Int[0, 100].Array[12]
        from products in Gen.Int[0, 3].Array[12]
        select Of(kinds, lengths, shifts, products);

    /// <summary>Points on the floor of a store, somewhere.</summary>
    public static Gen<ProbePoint[]> Points(int count) =>
        Gen.Select(Gen.Int[30, 3970], Gen.Int[30, 2570], (x, y) => new PlanPoint(x / 100.0, y / 100.0)).Array[count]
            .Select(ps => ps.Select((p, i) => new ProbePoint { Id = $"p{i}", Pass = ProbePass.Own, At = p, Stand = p }).ToArray());

    /// <summary>A store moved by a mirror image or a quarter turn.</summary>
    public static Plan Moved(Plan plan, Func<PlanPoint, PlanPoint> move, bool mirrored)
    {
        PlanLine? Line(PlanLine? line) => line is null ? null : new PlanLine([.. line.Points.Select(move)]);
        List<PlanPoint> Ring(IReadOnlyList<PlanPoint> ring) => mirrored ? [.. ring.Select(move).Reverse()] : [.. ring.Select(move)];
        return plan with
        {
            Outline = Ring(plan.Outline), Entrances = [.. plan.Entrances.Select(e => e with { At = move(e.At) })],
            Obstacles = [.. plan.Obstacles.Select(o => o with { Outline = Ring(o.Outline) })],
            Fixtures =
            [
                .. plan.Fixtures.Select(f => f with
                {
                    Outline = Ring(f.Outline), Front = Line(f.Front), Back = Line(f.Back), FrontStartsLeft = f.FrontStartsLeft != mirrored,
                    Opening = f.Opening is { } o ? new PlanSegment(move(o.A), move(o.B)) : null, Coils = [.. f.Coils.Select(move)],
                }),
            ],
        };
    }

    public static ProbeDraft Moved(ProbeDraft draft, Func<PlanPoint, PlanPoint> move) =>
        draft with { Points = [.. draft.Points.Select(p => p with { At = move(p.At), Stand = move(p.Stand) })] };

    public static PlanPoint Mirror(PlanPoint p) => new(Wide - p.X, p.Y);

    public static PlanPoint QuarterTurn(PlanPoint p) => new(Deep - p.Y, p.X);

    private static Plan Of(int[] kinds, int[] lengths, int[] shifts, int[] products)
    {
        var fixtures = new List<Fixture>();
        var obstacles = new List<Obstacle>();
        for (var slot = 0; slot < kinds.Length; slot++)
        {
            // Four slots across and three deep, each 8.5 by 6 m with an aisle round it.
            var (x, y) = (2 + (slot % 4 * 9.5) + (shifts[slot] / 100.0), 3 + (slot / 4 * 7.5));
            var length = lengths[slot] / 100.0;
            switch (kinds[slot])
            {
                case 0:
                    obstacles.Add(new($"G{slot}", "shelving", Box(x, y, x + length, y + 1.2)));
                    break;
                case 1 or 2:
                    fixtures.Add(Case($"C{slot}", FixtureKind.OpenCase, x, y, length, null, products[slot], kinds[slot] == 2));
                    break;
                case 3:
                    fixtures.Add(Case($"C{slot}a", FixtureKind.DoorCase, x, y, length / 2, $"L{slot}", products[slot], false));
                    fixtures.Add(Case($"C{slot}b", FixtureKind.DoorCase, x + (length / 2), y, length / 2, $"L{slot}", products[slot], false));
                    break;
                case 4:
                    fixtures.Add(Case($"C{slot}", FixtureKind.IslandCase, x, y, length, null, products[slot], false));
                    break;
                case 5:
                    fixtures.Add(new() { Id = $"W{slot}", Tag = $"W{slot}", Kind = FixtureKind.WalkIn, Outline = Box(x, y, x + 4, y + 3), Opening = new(new(x + 1, y), new(x + 2.2, y)), WalkInCircuit = "A1" });
                    break;
            }
        }

        return new()
        {
            Id = "random", Name = "Random", Outline = Box(0, 0, Wide, Deep), Entrances = [new("E1", new(20, 0))], Obstacles = obstacles, Fixtures = fixtures,
            Circuits = [new("A1", "A", [], null), new("B1", "B", [], null)],
            Systems = [new("A", SystemType.Direct, "R-448A", 600), new("B", SystemType.Direct, "R-404A", 300)],
        };
    }

    private static Fixture Case(string id, FixtureKind kind, double x, double y, double length, string? lineUp, int product, bool upwards) => new()
    {
        Id = id, Tag = id, Kind = kind, LineUp = lineUp, Outline = Box(x, y, x + length, y + 1), Product = product == 0 ? "fresh meat" : null,
        Front = upwards ? new PlanLine([new(x + length, y + 1), new(x, y + 1)]) : new PlanLine([new(x, y), new(x + length, y)]),
        Back = kind == FixtureKind.IslandCase ? new PlanLine([new(x, y + 1), new(x + length, y + 1)]) : null,
        Sections = [new(1, 0, length, 1, product == 1 ? "B1" : "A1")],
    };

    private static List<PlanPoint> Box(double x1, double y1, double x2, double y2) => [new(x1, y1), new(x2, y1), new(x2, y2), new(x1, y2)];
}
