using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>Builds the mesh of cells that are covered whole: each cell becomes four squares round its centre. A node between cells
/// has the mean of those that meet there through open faces; across a wall, and towards cells that don't count, nodes are kept
/// apart, so no sliver stays blank along a wall and nothing is drawn through it.</summary>
internal sealed class CellMesh
{
    // Nodes of a cell, row by row: 0 1 2 below, 3 4 5 across the middle, 6 7 8 above. Sides are half edges of the outline.
    private const int Corners = 9, Sides = 8, MostEdges = 12;
    private static readonly int[] SideFrom = [0, 3, 0, 1, 2, 5, 6, 7], SideTo = [3, 6, 1, 2, 5, 8, 7, 8];

    private readonly FieldGrid grid;
    private readonly double[] cells;
    private readonly bool[] counts;
    private readonly bool[]? openRight;
    private readonly bool[]? openUp;
    private readonly int[] nodeOf;
    private readonly int[] sideOf;
    private readonly int[] spots;
    private readonly double[] sums;
    private readonly int[] numbers;
    private readonly int[] edgeNodes;
    private readonly int[] squareNodes;
    private readonly int[] squareEdges;
    private int squareSides;
    private int nodes;
    private int edges;

    private CellMesh(FieldGrid grid, double[] cells, bool[]? counts, bool[]? openRight, bool[]? openUp)
    {
        ContourMesh.Check(grid, cells.Length);
        foreach (var flags in (bool[]?[])[counts, openRight, openUp]) ContourMesh.Check(grid, flags?.Length ?? grid.Count);
        this.grid = grid;
        this.cells = cells;
        this.counts = new bool[grid.Count];
        var counted = 0;
        for (var c = 0; c < grid.Count; c++)
        {
            this.counts[c] = double.IsFinite(cells[c]) && counts?[c] != false;
            if (this.counts[c]) counted++;
        }

        this.openRight = openRight;
        this.openUp = openUp;
        nodeOf = new int[Corners * grid.Count];
        sideOf = new int[Sides * grid.Count];
        spots = new int[Corners * counted];
        sums = new double[Corners * counted];
        numbers = new int[Corners * counted];
        edgeNodes = new int[2 * MostEdges * counted];
        squareNodes = new int[16 * counted];
        squareEdges = new int[16 * counted];
    }

    /// <summary>Builds a mesh.</summary>
    /// <param name="grid">The grid of cells.</param>
    /// <param name="cells">One value per cell; NaN where there is none.</param>
    /// <param name="counts">True for cells to be covered; null for all with a value.</param>
    /// <param name="openRight">True where a cell is open to its right neighbour; null where no walls are known.</param>
    /// <param name="openUp">True where a cell is open to the one above; null where no walls are known.</param>
    public static ContourMesh Of(FieldGrid grid, double[] cells, bool[]? counts, bool[]? openRight, bool[]? openUp)
    {
        var mesh = new CellMesh(grid, cells, counts, openRight, openUp);
        mesh.PlaceCentresAndSides();
        mesh.PlaceCorners();
        return mesh.Build();
    }

    private bool Right(int cell) => cell % grid.Columns + 1 < grid.Columns && counts[cell] && counts[cell + 1] && openRight?[cell] != false;

    private bool Up(int cell) => cell + grid.Columns < grid.Count && counts[cell] && counts[cell + grid.Columns] && openUp?[cell] != false;

    private bool Left(int cell) => cell % grid.Columns > 0 && Right(cell - 1);

    private bool Down(int cell) => cell >= grid.Columns && Up(cell - grid.Columns);

    private void PlaceCentresAndSides()
    {
        for (var c = 0; c < grid.Count; c++)
        {
            if (!counts[c]) continue;
            Use(c, 4, NewNode(c, 4));
            Use(c, 3, Left(c) ? nodeOf[((c - 1) * Corners) + 5] : NewNode(c, 3));
            Use(c, 1, Down(c) ? nodeOf[((c - grid.Columns) * Corners) + 7] : NewNode(c, 1));
            Use(c, 5, NewNode(c, 5));
            Use(c, 7, NewNode(c, 7));
        }
    }

    private void PlaceCorners()
    {
        // The four cells round a corner: below left, below right, above right, above left.
        Span<int> cell = stackalloc int[4], near = [8, 6, 0, 2], group = stackalloc int[4];
        for (var row = 0; row <= grid.Rows; row++)
        {
            for (var column = 0; column <= grid.Columns; column++)
            {
                cell[0] = CellAt(column - 1, row - 1);
                cell[1] = CellAt(column, row - 1);
                cell[2] = CellAt(column, row);
                cell[3] = CellAt(column - 1, row);
                for (var k = 0; k < 4; k++) group[k] = k;
                if (cell[0] >= 0 && cell[1] >= 0 && Right(cell[0])) Join(group, 0, 1);
                if (cell[3] >= 0 && cell[2] >= 0 && Right(cell[3])) Join(group, 3, 2);
                if (cell[0] >= 0 && cell[3] >= 0 && Up(cell[0])) Join(group, 0, 3);
                if (cell[1] >= 0 && cell[2] >= 0 && Up(cell[1])) Join(group, 1, 2);
                for (var k = 0; k < 4; k++)
                {
                    if (cell[k] < 0) continue;
                    var first = group.IndexOf(group[k]);
                    Use(cell[k], near[k], first < k ? nodeOf[(cell[first] * Corners) + near[first]] : NewNode(cell[k], near[k]));
                }
            }
        }
    }

    private ContourMesh Build()
    {
        for (var c = 0; c < grid.Count; c++)
        {
            if (!counts[c]) continue;
            for (var s = 0; s < Sides; s++) sideOf[(c * Sides) + s] = SideEdge(c, s);
            int left = NewEdge(c, 3, 4), bottom = NewEdge(c, 1, 4), right = NewEdge(c, 4, 5), top = NewEdge(c, 4, 7);
            Add(c, [0, 1, 4, 3], [Side(c, 2), bottom, left, Side(c, 0)]);
            Add(c, [1, 2, 5, 4], [Side(c, 3), Side(c, 4), right, bottom]);
            Add(c, [3, 4, 7, 6], [left, top, Side(c, 6), Side(c, 1)]);
            Add(c, [4, 5, 8, 7], [right, Side(c, 5), Side(c, 7), top]);
        }

        var values = new double[nodes];
        for (var n = 0; n < nodes; n++) values[n] = sums[n] / numbers[n];
        var half = grid.CellMetres / 2;
        return new ContourMesh
        {
            Lattice = new FieldGrid(new PlanPoint(grid.Origin.X - half, grid.Origin.Y - half), half, (2 * grid.Columns) + 1, (2 * grid.Rows) + 1),
            Spots = spots, Values = values, EdgeNodes = edgeNodes[..(2 * edges)], SquareNodes = squareNodes, SquareEdges = squareEdges,
        };
    }

    private void Add(int c, ReadOnlySpan<int> corners, ReadOnlySpan<int> sides)
    {
        for (var k = 0; k < 4; k++)
        {
            squareNodes[squareSides] = nodeOf[(c * Corners) + corners[k]];
            squareEdges[squareSides++] = sides[k];
        }
    }

    // Left and lower sides are those of the neighbour where its face is open: its right and upper sides come four later.
    private int SideEdge(int c, int side) =>
        side < 2 && Left(c) ? Side(c - 1, side + 4)
        : side is 2 or 3 && Down(c) ? Side(c - grid.Columns, side + 4)
        : NewEdge(c, SideFrom[side], SideTo[side]);

    private int Side(int c, int side) => sideOf[(c * Sides) + side];

    private int CellAt(int column, int row)
    {
        if (column < 0 || row < 0 || column >= grid.Columns || row >= grid.Rows) return -1;
        var cell = (row * grid.Columns) + column;
        return counts[cell] ? cell : -1;
    }

    private static void Join(Span<int> group, int a, int b)
    {
        int keep = Math.Min(group[a], group[b]), drop = Math.Max(group[a], group[b]);
        for (var k = 0; k < 4; k++)
        {
            if (group[k] == drop) group[k] = keep;
        }
    }

    private int NewNode(int cell, int k)
    {
        int column = (2 * (cell % grid.Columns)) + (k % 3), row = (2 * (cell / grid.Columns)) + (k / 3);
        spots[nodes] = (row * ((2 * grid.Columns) + 1)) + column;
        return nodes++;
    }

    private void Use(int cell, int k, int node)
    {
        nodeOf[(cell * Corners) + k] = node;
        sums[node] += cells[cell];
        numbers[node]++;
    }

    private int NewEdge(int cell, int from, int to)
    {
        edgeNodes[2 * edges] = nodeOf[(cell * Corners) + from];
        edgeNodes[(2 * edges) + 1] = nodeOf[(cell * Corners) + to];
        return edges++;
    }
}
