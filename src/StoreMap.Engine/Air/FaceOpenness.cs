using StoreMap.Plans;

namespace StoreMap.Air;

/// <summary>How far each face between neighbouring cells is open.</summary>
internal static class FaceOpenness
{
    /// <summary>Works out all faces.</summary>
    /// <returns>Per cell the openness to its right and its upper neighbour, at least 0; 0 at the frame's edge and next to solid cells.</returns>
    public static (double[] Right, double[] Up) Of(Plan plan, GridFrame frame, RegionRaster raster, AirSettings settings)
    {
        var (right, up) = (new double[frame.Count], new double[frame.Count]);
        var rule = new FaceRule(plan, raster, settings);
        for (var cell = 0; cell < frame.Count; cell++)
        {
            if (cell % frame.Columns + 1 < frame.Columns) right[cell] = Unmarked(rule.WithoutBarrier(cell, cell + 1));
            if (cell + frame.Columns < frame.Count) up[cell] = Unmarked(rule.WithoutBarrier(cell, cell + frame.Columns));
        }

        foreach (var barrier in BarrierList.Of(plan, settings)) Cut(frame, barrier, rule, right, up);
        return (Array.ConvertAll(right, Marked), Array.ConvertAll(up, Marked));
    }

    // A free face waits at infinity, so that the least over its barriers counts even where a doorway's is above 1.
    private static double Unmarked(double openness) => openness == 1 ? double.PositiveInfinity : openness;

    private static double Marked(double openness) => double.IsPositiveInfinity(openness) ? 1 : openness;

    private static void Cut(GridFrame frame, Barrier barrier, FaceRule rule, double[] right, double[] up)
    {
        LatticeCrossing.Rows(frame, barrier.A, barrier.B, (row, column) =>
        {
            if (column == 0 || column == frame.Columns) return;
            var cell = (row * frame.Columns) + column - 1;
            if (right[cell] == 0) return;
            var share = Share(barrier, barrier.A.X == barrier.B.X, barrier.A.Y, barrier.B.Y, frame.BottomOf(row), frame.BottomOf(row + 1));
            right[cell] = Math.Min(right[cell], rule.Across(barrier, share, cell, cell + 1));
        });
        LatticeCrossing.Columns(frame, barrier.A, barrier.B, (column, row) =>
        {
            if (row == 0 || row == frame.Rows) return;
            var cell = ((row - 1) * frame.Columns) + column;
            if (up[cell] == 0) return;
            var share = Share(barrier, barrier.A.Y == barrier.B.Y, barrier.A.X, barrier.B.X, frame.LeftOf(column), frame.LeftOf(column + 1));
            up[cell] = Math.Min(up[cell], rule.Across(barrier, share, cell, cell + frame.Columns));
        });
    }

    private static double Share(Barrier barrier, bool straight, long a, long b, long low, long high) =>
        straight && barrier.Kind is (BarrierKind.Room or BarrierKind.WalkIn)
            ? DoorwayShare.Of(barrier, a, b, low, high)
            : OpenShare(barrier, a, b, low, high);

    // The share of the face's width, the band from low to high, over which the barrier's gaps lie; each gap weighs by its openness.
    private static double OpenShare(Barrier barrier, long a, long b, long low, long high)
    {
        var (s, t) = ((double)(low - a) / (b - a), (double)(high - a) / (b - a));
        if (s > t) (s, t) = (t, s);
        var open = 0.0;
        foreach (var gap in barrier.Gaps) open += gap.Openness * Math.Max(0, Math.Min(t, gap.To) - Math.Max(s, gap.From));
        // Rounded, so that a gap that spans the face gives its openness and not a last bit less.
        return Math.Min(1, Math.Round(open * Math.Abs((double)(b - a)) / (high - low), 9));
    }
}
