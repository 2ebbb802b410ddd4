using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>What is contoured: values at the nodes of a regular lattice, and which of the squares between four nodes count.
/// Node index = row · columns + column; square index = row · (columns − 1) + column, named after its lower left node.
/// Edges are numbered too: the edge to the right of node n is n, the edge upwards from it is nodes + n.</summary>
internal sealed class ContourLattice
{
    private ContourLattice(PlanPoint origin, double step, int columns, int rows, double[] values, bool[] squares)
    {
        Origin = origin;
        Step = step;
        Columns = columns;
        Rows = rows;
        Values = values;
        Squares = squares;
    }

    public PlanPoint Origin { get; }

    public double Step { get; }

    public int Columns { get; }

    public int Rows { get; }

    public double[] Values { get; }

    public bool[] Squares { get; }

    public int Nodes => Columns * Rows;

    public int SquareColumns => Math.Max(0, Columns - 1);

    public int SquareRows => Math.Max(0, Rows - 1);

    /// <summary>The grid's points are the nodes; a square counts when its four nodes are finite.</summary>
    public static ContourLattice OfNodes(FieldGrid grid, double[] values)
    {
        Check(grid, values.Length);
        var width = Math.Max(0, grid.Columns - 1);
        var squares = new bool[width * Math.Max(0, grid.Rows - 1)];
        for (var s = 0; s < squares.Length; s++)
        {
            var n = (s / width * grid.Columns) + (s % width);
            squares[s] = double.IsFinite(values[n]) && double.IsFinite(values[n + 1])
                && double.IsFinite(values[n + grid.Columns]) && double.IsFinite(values[n + grid.Columns + 1]);
        }

        return new ContourLattice(grid.Origin, grid.CellMetres, grid.Columns, grid.Rows, values, squares);
    }

    /// <summary>The grid's points are centres of square cells, and the cells that count are covered whole: the lattice is twice
    /// as fine, a node between cells has the mean of those that count, so no sliver stays blank along a wall and no value is
    /// drawn from a cell that doesn't count.</summary>
    public static ContourLattice OfCells(FieldGrid grid, double[] values, bool[]? counts)
    {
        Check(grid, values.Length);
        if (counts is not null) Check(grid, counts.Length);
        int columns = (2 * grid.Columns) + 1, rows = (2 * grid.Rows) + 1;
        var sums = new double[columns * rows];
        var numbers = new int[columns * rows];
        var squares = new bool[4 * grid.Count];
        for (var cell = 0; cell < grid.Count; cell++)
        {
            if (!double.IsFinite(values[cell]) || counts is { } c && !c[cell]) continue;
            int column = 2 * (cell % grid.Columns), row = 2 * (cell / grid.Columns);
            for (var k = 0; k < 9; k++)
            {
                var node = ((row + (k / 3)) * columns) + column + (k % 3);
                sums[node] += values[cell];
                numbers[node]++;
            }

            for (var k = 0; k < 4; k++) squares[((row + (k / 2)) * (columns - 1)) + column + (k % 2)] = true;
        }

        for (var n = 0; n < sums.Length; n++) sums[n] = numbers[n] == 0 ? double.NaN : sums[n] / numbers[n];
        var half = grid.CellMetres / 2;
        return new ContourLattice(new PlanPoint(grid.Origin.X - half, grid.Origin.Y - half), half, columns, rows, sums, squares);
    }

    public PlanPoint NodeAt(int node) => new(Origin.X + (node % Columns * Step), Origin.Y + (node / Columns * Step));

    /// <summary>Where an edge crosses a level, by linear interpolation from its lower-numbered node.</summary>
    public PlanPoint CrossingAt(int edge, double level)
    {
        var a = edge % Nodes;
        var b = edge < Nodes ? a + 1 : a + Columns;
        var t = Math.Clamp((level - Values[a]) / (Values[b] - Values[a]), 0, 1);
        PlanPoint from = NodeAt(a), to = NodeAt(b);
        return from + ((to - from) * t);
    }

    private static void Check(FieldGrid grid, int length)
    {
        if (length != grid.Count)
            throw new ArgumentException($"The grid has {grid.Count} points but there are {length} values.", nameof(grid));
    }
}
