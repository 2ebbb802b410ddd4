using StoreMap.Air;
using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>How far gas that spilled from a case travels through the aisles: round cases, obstacles and walls, not through them.</summary>
internal sealed class AisleWays(Plan plan)
{
    private const double CellMetres = 0.5;

    /// <summary>Width of the aisles that the shares of <see cref="Spread.AisleAir"/> are of, metres: 6 ft.</summary>
    private const double UsualMetres = 1.8;

    /// <summary>Never more than this times the share: then the two fronts hold the same air.</summary>
    private const double MostNarrowing = 3;

    // Gas passes through aisles only: to and from a case's own air the formulas of its trace apply.
    private readonly AirGrid grid = AirGrid.Build(plan, CellMetres, new AirSettings { FrontOpenness = 0, EndOpenness = 0 });
    private readonly Dictionary<(PlanPoint, string), double> narrowings = [];
    private readonly Dictionary<PlanPoint, int> cells = [];
    private readonly Dictionary<int, double[]> ways = [];

    /// <summary>Metres from a place in front of a case to a reading; infinite beyond <see cref="Spread.FarthestMetres"/>. The straight
    /// line, lengthened as the way over the cells is; straight where one of the two is not on open floor.</summary>
    /// <param name="from">Plan metres.</param>
    /// <param name="to">Plan metres.</param>
    public double Between(PlanPoint from, PlanPoint to)
    {
        var straight = from.DistanceTo(to);
        if (straight > Spread.FarthestMetres) return double.PositiveInfinity;
        var (a, b) = (CellOf(from), CellOf(to));
        if (a < 0 || b < 0 || a == b) return straight;
        if (!ways.TryGetValue(a, out var way)) way = ways[a] = AirDistance.From(grid, [a], Spread.FarthestMetres);
        var (across, up) = (Math.Abs((a % grid.Columns) - (b % grid.Columns)), Math.Abs((a / grid.Columns) - (b / grid.Columns)));
        var free = grid.CellMetres * (Math.Max(across, up) + ((Math.Sqrt(2) - 1) * Math.Min(across, up)));
        return straight * Math.Max(1, way[b] / free);
    }

    /// <summary>The factor by which more of a case's gas is met at a fixture across a narrow aisle: what the case loses fills less air.</summary>
    /// <param name="from">Place on the case's front, plan metres.</param>
    /// <param name="fixture">Id of the other fixture; null in the open, where the factor is 1.</param>
    public double Narrowing(PlanPoint from, string? fixture)
    {
        if (fixture is null || plan.FindFixture(fixture)?.Front is not { } front) return 1;
        if (narrowings.TryGetValue((from, fixture), out var known)) return known;
        var gap = Between(from, front.PointAt(front.Project(from).Along));
        return narrowings[(from, fixture)] = Math.Clamp(UsualMetres / Math.Max(gap, 0.01), 1, MostNarrowing);
    }

    private int CellOf(PlanPoint at) => cells.TryGetValue(at, out var cell) ? cell : cells[at] = grid.CellAt(at);
}
