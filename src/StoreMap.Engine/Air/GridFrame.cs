using StoreMap.Plans;

namespace StoreMap.Air;

/// <summary>Where the cells lie: square cells in rows, row 0 lowest, column 0 leftmost; index = row * columns + column.
/// The frame is centred on the plan's bounding box, so a mirrored plan has the mirrored frame.</summary>
internal sealed class GridFrame
{
    private readonly long left;
    private readonly long bottom;
    private readonly long step;

    private GridFrame(long left, long bottom, long step, int columns, int rows) =>
        (this.left, this.bottom, this.step, Columns, Rows) = (left, bottom, step, columns, rows);

    /// <summary>Cells along x.</summary>
    public int Columns { get; }

    /// <summary>Cells along y.</summary>
    public int Rows { get; }

    /// <summary>Number of cells.</summary>
    public int Count => Columns * Rows;

    /// <summary>Side of a cell, metres.</summary>
    public double CellMetres => PlanLattice.Metres(step);

    /// <summary>Covers a ring with cells.</summary>
    /// <param name="outline">The ring to cover, metres.</param>
    /// <param name="cellMetres">Side of a cell, metres, in [0.01, 5].</param>
    /// <exception cref="ArgumentOutOfRangeException">The cell is outside its range, or more than four million cells are asked for.</exception>
    public static GridFrame Cover(IReadOnlyList<PlanPoint> outline, double cellMetres)
    {
        if (!(cellMetres is >= 0.01 and <= 5))
            throw new ArgumentOutOfRangeException(nameof(cellMetres), cellMetres, "A cell is 0.01 to 5 m wide.");
        var step = 2 * PlanLattice.Snap(cellMetres / 2);
        var points = outline.Select(PlanLattice.Snap).ToArray();
        var (minX, maxX) = (points.Min(p => p.X), points.Max(p => p.X));
        var (minY, maxY) = (points.Min(p => p.Y), points.Max(p => p.Y));
        var columns = Math.Max(1, (maxX - minX + step - 1) / step);
        var rows = Math.Max(1, (maxY - minY + step - 1) / step);
        if (columns * rows > 4_000_000)
            throw new ArgumentOutOfRangeException(nameof(cellMetres), cellMetres, "That makes more than four million cells; take larger cells.");
        return new GridFrame(
            ((minX + maxX) / 2) - (columns * step / 2), ((minY + maxY) / 2) - (rows * step / 2), step, (int)columns, (int)rows);
    }

    /// <summary>Lattice x of the centres of a column.</summary>
    public long CentreX(int column) => left + (step / 2) + (step * column);

    /// <summary>Lattice y of the centres of a row.</summary>
    public long CentreY(int row) => bottom + (step / 2) + (step * row);

    /// <summary>Lattice x of a column's left edge.</summary>
    public long LeftOf(int column) => left + (step * column);

    /// <summary>Lattice y of a row's lower edge.</summary>
    public long BottomOf(int row) => bottom + (step * row);

    /// <summary>Centre of a cell, metres.</summary>
    public PlanPoint CentreOf(int cell) =>
        new(PlanLattice.Metres(CentreX(cell % Columns)), PlanLattice.Metres(CentreY(cell / Columns)));

    /// <summary>The cell that holds a point; -1 outside the frame.</summary>
    public int CellOf(PlanPoint p)
    {
        var column = PlanLattice.FloorDivide(PlanLattice.Snap(p.X) - left, step);
        var row = PlanLattice.FloorDivide(PlanLattice.Snap(p.Y) - bottom, step);
        return column < 0 || row < 0 || column >= Columns || row >= Rows ? -1 : (int)((row * Columns) + column);
    }

    /// <summary>Rows whose centres lie above <paramref name="low"/> or on it, and below <paramref name="high"/>: first and one past the last.</summary>
    public (int First, int End) RowsBetween(long low, long high) => Between(low, high, bottom, Rows);

    /// <summary>Columns whose centres lie right of <paramref name="low"/> or on it, and left of <paramref name="high"/>.</summary>
    public (int First, int End) ColumnsBetween(long low, long high) => Between(low, high, left, Columns);

    /// <summary>The first column, in [0, columns], whose centres are at numerator / denominator or to the right.</summary>
    public int FirstColumnFrom(Int128 numerator, Int128 denominator) =>
        FirstFrom(numerator, denominator, left, Columns, strict: false);

    /// <summary>The first row, in [0, rows], whose centres are above numerator / denominator, or on it when not strict.</summary>
    public int FirstRowFrom(Int128 numerator, Int128 denominator, bool strict) =>
        FirstFrom(numerator, denominator, bottom, Rows, strict);

    private (int First, int End) Between(long low, long high, long start, int count)
    {
        // centre >= low  <=>  index >= ceil((low - first centre) / step)
        var first = -PlanLattice.FloorDivide(start + (step / 2) - low, step);
        var end = -PlanLattice.FloorDivide(start + (step / 2) - high, step);
        return ((int)Math.Clamp(first, 0, count), (int)Math.Clamp(end, 0, count));
    }

    private int FirstFrom(Int128 numerator, Int128 denominator, long start, int count, bool strict)
    {
        if (denominator < 0) (numerator, denominator) = (-numerator, -denominator);
        var past = numerator - ((start + (step / 2)) * denominator);
        var index = strict
            ? PlanLattice.FloorDivide(past, step * denominator) + 1
            : -PlanLattice.FloorDivide(-past, step * denominator);
        return (int)Math.Clamp(index, 0, count);
    }
}
