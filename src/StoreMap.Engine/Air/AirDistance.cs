namespace StoreMap.Air;

/// <summary>How far air has to travel: shortest ways from cell to cell through open faces.</summary>
internal static class AirDistance
{
    /// <summary>Distance of every cell from the nearest of some cells.</summary>
    /// <param name="grid">The grid.</param>
    /// <param name="from">Cells to start from.</param>
    /// <param name="limit">Longest distance of interest, metres.</param>
    /// <returns>Metres per cell; infinity beyond the limit, in solid cells and where no way leads. Steps go to the eight neighbours, so a
    /// way is up to 8 % longer than the straight line it follows.</returns>
    public static double[] From(AirGrid grid, IEnumerable<int> from, double limit)
    {
        var distance = new double[grid.Count];
        Array.Fill(distance, double.PositiveInfinity);
        var queue = new PriorityQueue<int, double>();
        foreach (var cell in from)
        {
            if (distance[cell] == 0) continue;
            distance[cell] = 0;
            queue.Enqueue(cell, 0);
        }

        while (queue.TryDequeue(out var cell, out var reached))
        {
            if (reached > distance[cell]) continue;
            for (var side = 0; side < 4; side++)
            {
                var next = AirComponents.Neighbour(grid, cell, side);
                if (next < 0) continue;
                Reach(next, reached + grid.CellMetres);
                var corner = Corner(grid, cell, side, next);
                if (corner >= 0) Reach(corner, reached + (Math.Sqrt(2) * grid.CellMetres));
            }
        }

        return distance;

        void Reach(int cell, double metres)
        {
            if (metres > limit || metres >= distance[cell]) return;
            distance[cell] = metres;
            queue.Enqueue(cell, metres);
        }
    }

    // The cell diagonally ahead to the left, when both ways round to it are open.
    private static int Corner(AirGrid grid, int cell, int side, int next)
    {
        var left = (side + 1) % 4;
        var corner = AirComponents.Neighbour(grid, next, left);
        var beside = AirComponents.Neighbour(grid, cell, left);
        return corner >= 0 && beside >= 0 && AirComponents.Neighbour(grid, beside, side) == corner ? corner : -1;
    }
}
