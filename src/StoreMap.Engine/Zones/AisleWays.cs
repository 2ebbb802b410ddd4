using StoreMap.Air;
using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>How far gas that spilled from a case travels through the aisles: round cases, obstacles and walls, not through them.</summary>
internal sealed class AisleWays(Plan plan)
{
    private const double CellMetres = 0.5;

    // Gas passes through aisles only: to and from a case's own air the formulas of its trace apply.
    private readonly AirGrid grid = AirGrid.Build(plan, CellMetres, new AirSettings { FrontOpenness = 0, EndOpenness = 0 });
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

    private int CellOf(PlanPoint at) => cells.TryGetValue(at, out var cell) ? cell : cells[at] = grid.CellAt(at);
}
