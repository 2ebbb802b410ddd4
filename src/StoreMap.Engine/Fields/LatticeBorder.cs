namespace StoreMap.Fields;

/// <summary>The edges with a square that counts on exactly one side, directed so that it lies on the left.</summary>
/// <param name="From">Node each edge starts at.</param>
/// <param name="To">Node it ends at.</param>
/// <param name="Edge">Number of the edge.</param>
/// <param name="Square">The square on its left.</param>
internal sealed record LatticeBorder(List<int> From, List<int> To, List<int> Edge, List<int> Square)
{
    public static LatticeBorder Of(ContourLattice lattice)
    {
        var border = new LatticeBorder([], [], [], []);
        int columns = lattice.Columns, width = lattice.SquareColumns;
        for (var square = 0; square < lattice.Squares.Length; square++)
        {
            if (!lattice.Squares[square]) continue;
            int row = square / width, column = square % width, n = (row * columns) + column, up = n + columns;
            if (row == 0 || !lattice.Squares[square - width]) border.Add(n, n + 1, n, square);
            if (column + 1 == width || !lattice.Squares[square + 1]) border.Add(n + 1, up + 1, lattice.Nodes + n + 1, square);
            if (row + 1 == lattice.SquareRows || !lattice.Squares[square + width]) border.Add(up + 1, up, up, square);
            if (column == 0 || !lattice.Squares[square - 1]) border.Add(up, n, lattice.Nodes + n, square);
        }

        return border;
    }

    private void Add(int from, int to, int edge, int square)
    {
        From.Add(from);
        To.Add(to);
        Edge.Add(edge);
        Square.Add(square);
    }
}
