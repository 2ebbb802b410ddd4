using StoreMap.Plans;

namespace StoreMap.Simulation;

/// <summary>Barriers sorted into 2 m squares, so that a short step is held against the few that are near.</summary>
internal sealed class BarrierGrid
{
    private const double Side = 2;

    private readonly List<PlanSegment>[] cells;
    private readonly double left;
    private readonly double bottom;
    private readonly int columns;
    private readonly int rows;

    public BarrierGrid(IReadOnlyList<PlanSegment> barriers)
    {
        left = barriers.Min(b => Math.Min(b.A.X, b.B.X));
        bottom = barriers.Min(b => Math.Min(b.A.Y, b.B.Y));
        columns = 1 + (int)((barriers.Max(b => Math.Max(b.A.X, b.B.X)) - left) / Side);
        rows = 1 + (int)((barriers.Max(b => Math.Max(b.A.Y, b.B.Y)) - bottom) / Side);
        cells = [.. Enumerable.Range(0, columns * rows).Select(_ => new List<PlanSegment>())];
        foreach (var barrier in barriers)
        {
            var (c0, c1, r0, r1) = Box(barrier.A, barrier.B);
            for (var r = r0; r <= r1; r++)
            for (var c = c0; c <= c1; c++)
                cells[(r * columns) + c].Add(barrier);
        }
    }

    /// <summary>True when a barrier stands between two places.</summary>
    public bool Between(PlanPoint a, PlanPoint b)
    {
        var (c0, c1, r0, r1) = Box(a, b);
        for (var r = r0; r <= r1; r++)
        for (var c = c0; c <= c1; c++)
        {
            foreach (var wall in cells[(r * columns) + c])
            {
                var d = wall.B - wall.A;
                if (d.Cross(a - wall.A) * d.Cross(b - wall.A) >= 0) continue;
                var e = b - a;
                if (e.Cross(wall.A - a) * e.Cross(wall.B - a) < 0) return true;
            }
        }

        return false;
    }

    private (int C0, int C1, int R0, int R1) Box(PlanPoint a, PlanPoint b) => (
        Column(Math.Min(a.X, b.X)), Column(Math.Max(a.X, b.X)), Row(Math.Min(a.Y, b.Y)), Row(Math.Max(a.Y, b.Y)));

    private int Column(double x) => Math.Clamp((int)((x - left) / Side), 0, columns - 1);

    private int Row(double y) => Math.Clamp((int)((y - bottom) / Side), 0, rows - 1);
}
