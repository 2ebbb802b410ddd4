using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>The strips of floor in which line-ups and islands are probed, and how many metres of a walk run along them. Every strip is walked
/// once with the probe anyway, so a walk along it without probing walks an aisle again, or turns back along the line-up just probed.</summary>
internal sealed class AisleStrips
{
    private const double CellMetres = 2;
    private const double StepMetres = 0.25;

    /// <summary>Half the width of a strip round the feet of the one who probes, metres. Not a round number, so that no walk on a round grid
    /// runs just on its edge.</summary>
    private const double ReachMetres = 0.973;

    /// <summary>Least cosine between walk and strip for the walk to run along it: within about 37°. Crossing is no walking again.</summary>
    private const double AlongCosine = 0.8;

    private readonly List<(PlanPoint From, PlanPoint Direction, double Length)> segments = [];
    private readonly List<int>[] cells;
    private readonly double left;
    private readonly double bottom;
    private readonly int columns;

    /// <summary>Lays out the strips.</summary>
    /// <param name="courses">Where the feet stand along each line-up or island, in order, metres.</param>
    public AisleStrips(IEnumerable<IReadOnlyList<PlanPoint>> courses)
    {
        foreach (var (a, b) in courses.SelectMany(c => c.Zip(c.Skip(1))))
        {
            var length = a.DistanceTo(b);
            if (length > 1e-6) segments.Add((a, (b - a) * (1 / length), length));
        }

        if (segments.Count == 0)
        {
            cells = [];
            return;
        }

        List<PlanPoint> ends = [.. segments.SelectMany(s => new[] { s.From, s.From + (s.Direction * s.Length) })];
        (left, bottom) = (ends.Min(p => p.X) - ReachMetres, ends.Min(p => p.Y) - ReachMetres);
        columns = 1 + (int)((ends.Max(p => p.X) + ReachMetres - left) / CellMetres);
        cells = [.. Enumerable.Range(0, columns * (1 + (int)((ends.Max(p => p.Y) + ReachMetres - bottom) / CellMetres))).Select(_ => new List<int>())];
        for (var s = 0; s < segments.Count; s++) Enter(s);
    }

    /// <summary>Metres of a walk that run along a strip, to the step of 0.25 m.</summary>
    public double Along(IReadOnlyList<PlanPoint> corners)
    {
        var metres = 0.0;
        for (var i = 1; i < corners.Count && cells.Length > 0; i++)
        {
            var length = corners[i - 1].DistanceTo(corners[i]);
            if (length < 1e-9) continue;
            var direction = (corners[i] - corners[i - 1]) * (1 / length);
            var steps = Math.Max(1, (int)Math.Round(length / StepMetres));
            for (var s = 0; s < steps; s++)
            {
                if (IsAlong(corners[i - 1] + (direction * (length * (s + 0.5) / steps)), direction)) metres += length / steps;
            }
        }

        return metres;
    }

    private bool IsAlong(PlanPoint at, PlanPoint direction)
    {
        var (column, row) = ((int)Math.Floor((at.X - left) / CellMetres), (int)Math.Floor((at.Y - bottom) / CellMetres));
        if (column < 0 || column >= columns || row < 0 || row >= cells.Length / columns) return false;
        foreach (var s in cells[(row * columns) + column])
        {
            var (from, along, length) = segments[s];
            if (Math.Abs(along.Dot(direction)) < AlongCosine) continue;
            var nearest = from + (along * Math.Clamp((at - from).Dot(along), 0, length));
            if (nearest.DistanceTo(at) <= ReachMetres) return true;
        }

        return false;
    }

    /// <summary>Notes a segment in every cell that its strip may touch.</summary>
    private void Enter(int segment)
    {
        var (from, direction, length) = segments[segment];
        var to = from + (direction * length);
        int Cell(double value, double least) => Math.Max(0, (int)Math.Floor((value - least) / CellMetres));
        for (var row = Cell(Math.Min(from.Y, to.Y) - ReachMetres, bottom); row <= Math.Min((cells.Length / columns) - 1, Cell(Math.Max(from.Y, to.Y) + ReachMetres, bottom)); row++)
        {
            for (var column = Cell(Math.Min(from.X, to.X) - ReachMetres, left); column <= Math.Min(columns - 1, Cell(Math.Max(from.X, to.X) + ReachMetres, left)); column++)
                cells[(row * columns) + column].Add(segment);
        }
    }
}
