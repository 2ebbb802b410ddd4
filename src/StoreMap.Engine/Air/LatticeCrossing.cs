namespace StoreMap.Air;

/// <summary>Exact crossings of a lattice line with the lines through cell centres.</summary>
/// <remarks>Cell centres are thought to be shifted right by an infinitesimal e and up by e squared, the same for all. So no centre
/// lies on any line, a ring has an inside and an outside for every cell, and each way from in to out crosses it: no wall can leak
/// because it happens to run through centres. (Simulation of simplicity: Edelsbrunner and Mücke, ACM Trans. Graphics 9, 1990.)</remarks>
internal static class LatticeCrossing
{
    /// <summary>Visits each row whose line of centres is crossed: row, and the first column to the right of the crossing
    /// (in [0, columns]). The face cut lies between that column and the one before.</summary>
    public static void Rows(GridFrame frame, LatticePoint a, LatticePoint b, Action<int, int> visit)
    {
        if (a.Y == b.Y) return;
        var (first, end) = frame.RowsBetween(Math.Min(a.Y, b.Y), Math.Max(a.Y, b.Y));
        Int128 dy = b.Y - a.Y;
        for (var row = first; row < end; row++)
        {
            var numerator = (a.X * dy) + ((Int128)(frame.CentreY(row) - a.Y) * (b.X - a.X));
            visit(row, frame.FirstColumnFrom(numerator, dy));
        }
    }

    /// <summary>Visits each column whose line of centres is crossed: column, and the first row above the crossing.</summary>
    public static void Columns(GridFrame frame, LatticePoint a, LatticePoint b, Action<int, int> visit)
    {
        if (a.X == b.X) return;
        var (first, end) = frame.ColumnsBetween(Math.Min(a.X, b.X), Math.Max(a.X, b.X));
        Int128 dx = b.X - a.X;
        var rising = (b.X > a.X) == (b.Y > a.Y) && a.Y != b.Y;
        for (var column = first; column < end; column++)
        {
            var numerator = (a.Y * dx) + ((Int128)(frame.CentreX(column) - a.X) * (b.Y - a.Y));
            visit(column, frame.FirstRowFrom(numerator, dx, strict: rising));
        }
    }
}
