namespace StoreMap.Fields;

/// <summary>What the lines of one level measure.</summary>
/// <param name="Level">The level.</param>
/// <param name="Lines">Its lines, open ones first.</param>
/// <param name="AreaAtOrAbove">Area of values at or above it.</param>
/// <param name="AreaBelow">Area of values below it.</param>
public sealed record LevelSummary(double Level, IReadOnlyList<Isoline> Lines, double AreaAtOrAbove, double AreaBelow)
{
    /// <summary>Length of all lines.</summary>
    public double Length => Lines.Sum(l => l.Length);

    /// <summary>Length of the closed lines.</summary>
    public double ClosedLength => Lines.Where(l => l.Closed).Sum(l => l.Length);

    /// <summary>Measures levels over the nodes of a grid, in the square of its unit of length.</summary>
    /// <param name="grid">The grid.</param>
    /// <param name="levels">Finite levels, any order.</param>
    /// <returns>One per level in the order given.</returns>
    public static IReadOnlyList<LevelSummary> Of(GridValues grid, IReadOnlyList<double> levels)
    {
        var lines = Isolines.Trace(grid.Nodes, grid.Values, levels).ToLookup(l => l.Level);
        var whole = Area(grid, double.NegativeInfinity);
        return [.. levels.Select(level =>
        {
            var above = Area(grid, level);
            return new LevelSummary(level, [.. lines[level].OrderBy(l => l.Closed)], above, whole - above);
        })];
    }

    private static double Area(GridValues grid, double level) => Isobands.Trace(grid.Nodes, grid.Values, [level])[0].SquareMetres;
}
