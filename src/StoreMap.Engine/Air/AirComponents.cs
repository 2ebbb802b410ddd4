namespace StoreMap.Air;

/// <summary>Finds the connected bodies of air.</summary>
internal static class AirComponents
{
    /// <summary>Numbers the bodies of air in order of their first cell.</summary>
    public static (int[] Of, int Count) Of(AirGrid grid)
    {
        var of = new int[grid.Count];
        Array.Fill(of, -1);
        var count = 0;
        var queue = new int[grid.Count];
        for (var start = 0; start < grid.Count; start++)
        {
            if (grid.RegionOf[start] < 0 || of[start] >= 0) continue;
            var (head, tail) = (0, 0);
            queue[tail++] = start;
            of[start] = count;
            while (head < tail)
            {
                var cell = queue[head++];
                for (var side = 0; side < 4; side++)
                {
                    var next = Neighbour(grid, cell, side);
                    if (next < 0 || of[next] >= 0) continue;
                    of[next] = count;
                    queue[tail++] = next;
                }
            }

            count++;
        }

        return (of, count);
    }

    /// <summary>The neighbour through an open face, or -1: side 0 right, 1 up, 2 left, 3 down.</summary>
    public static int Neighbour(AirGrid grid, int cell, int side) => side switch
    {
        0 => grid.Right[cell] > 0 ? cell + 1 : -1,
        1 => grid.Up[cell] > 0 ? cell + grid.Columns : -1,
        2 => cell % grid.Columns > 0 && grid.Right[cell - 1] > 0 ? cell - 1 : -1,
        _ => cell >= grid.Columns && grid.Up[cell - grid.Columns] > 0 ? cell - grid.Columns : -1,
    };
}
