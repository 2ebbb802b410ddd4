using StoreMap.Air;
using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>A linear mix of the cells about a point, never across a wall.</summary>
internal readonly struct CellMix
{
    private readonly int cell;
    private readonly int beside;
    private readonly int above;
    private readonly int corner;
    private readonly double s;
    private readonly double t;

    /// <summary>Prepares a point.</summary>
    /// <param name="grid">The grid.</param>
    /// <param name="cell">The cell whose air is meant.</param>
    /// <param name="p">A point in it.</param>
    public CellMix(AirGrid grid, int cell, PlanPoint p)
    {
        this.cell = cell;
        var centre = grid.CentreOf(cell);
        var (dx, dy) = ((p.X - centre.X) / grid.CellMetres, (p.Y - centre.Y) / grid.CellMetres);
        beside = AirComponents.Neighbour(grid, cell, dx >= 0 ? 0 : 2);
        above = AirComponents.Neighbour(grid, cell, dy >= 0 ? 1 : 3);
        (s, t) = (beside < 0 ? 0 : Math.Min(0.5, Math.Abs(dx)), above < 0 ? 0 : Math.Min(0.5, Math.Abs(dy)));
        corner = beside < 0 || above < 0 ? -1 : AirComponents.Neighbour(grid, beside, dy >= 0 ? 1 : 3);
        if (corner < 0 && s > 0 && t > 0) (s, t) = s >= t ? (s, 0.0) : (0.0, t);
    }

    /// <summary>The mix of one value per cell.</summary>
    public double Of(double[] v) =>
        ((1 - s) * (1 - t) * v[cell]) + (s > 0 ? s * (1 - t) * v[beside] : 0) + (t > 0 ? t * (1 - s) * v[above] : 0)
        + (s > 0 && t > 0 ? s * t * v[corner] : 0);
}
