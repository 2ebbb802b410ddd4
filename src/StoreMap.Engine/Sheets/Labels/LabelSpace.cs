namespace StoreMap.Sheets;

/// <summary>What of a drawing is taken by labels, leaders and marks. Boxes are kept in squares of 10 mm so that a look-up
/// meets its neighbours only.</summary>
internal sealed class LabelSpace
{
    private const double Square = 10;
    private readonly SheetBox bounds;
    private readonly int columns;
    private readonly int rows;
    private readonly List<SheetBox>[] squares;
    private readonly List<(SheetPoint A, SheetPoint B)>[] lines;
    private readonly List<(SheetPoint A, SheetPoint B)> leaders = [];

    /// <summary>An empty space.</summary>
    /// <param name="bounds">Labels must lie inside it.</param>
    public LabelSpace(SheetBox bounds)
    {
        this.bounds = bounds;
        columns = Math.Max(1, (int)Math.Ceiling(bounds.Width / Square));
        rows = Math.Max(1, (int)Math.Ceiling(bounds.Height / Square));
        squares = new List<SheetBox>[columns * rows];
        lines = new List<(SheetPoint A, SheetPoint B)>[columns * rows];
    }

    /// <summary>Notes a line that labels should rather not cover: a wall, the walk.</summary>
    public void Spare(SheetPoint a, SheetPoint b)
    {
        foreach (var square in SquaresOf(SheetBox.Around([a, b])))
        {
            if (Meets(SquareBox(square), a, b)) (lines[square] ??= []).Add((a, b));
        }
    }

    /// <summary>True when the box covers none of the lines to be spared.</summary>
    public bool Spares(SheetBox box) =>
        !SquaresOf(box).Any(square => lines[square] is { } near && near.Any(l => Meets(box, l.A, l.B)));

    /// <summary>True when the box lies inside the space and meets nothing taken.</summary>
    public bool IsFree(SheetBox box)
    {
        if (!bounds.Contains(box)) return false;
        foreach (var square in SquaresOf(box))
        {
            if (squares[square] is { } taken && taken.Any(t => t.Overlaps(box))) return false;
        }

        return !leaders.Any(l => Meets(box, l.A, l.B));
    }

    /// <summary>Takes a box.</summary>
    public void Block(SheetBox box)
    {
        foreach (var square in SquaresOf(box)) (squares[square] ??= []).Add(box);
    }

    /// <summary>True when a leader from a label's box to its anchor crosses no other leader and no taken box that doesn't hold the anchor.</summary>
    public bool LeaderIsFree(SheetPoint from, SheetPoint anchor)
    {
        if (leaders.Any(l => Cross(from, anchor, l.A, l.B))) return false;
        foreach (var square in SquaresOf(SheetBox.Around([from, anchor])))
        {
            if (squares[square] is { } taken && taken.Any(t => !t.Contains(anchor) && Meets(t, from, anchor))) return false;
        }

        return true;
    }

    /// <summary>Takes the line of a leader: later labels keep off it and later leaders don't cross it.</summary>
    public void BlockLeader(SheetPoint from, SheetPoint anchor) => leaders.Add((from, anchor));

    /// <summary>True when the straight line between two points meets the box.</summary>
    internal static bool Meets(SheetBox box, SheetPoint a, SheetPoint b)
    {
        // Liang-Barsky clipping of the segment to the box.
        double enter = 0, leave = 1;
        var d = b - a;
        return Clip(-d.X, a.X - box.X, ref enter, ref leave) && Clip(d.X, box.Right - a.X, ref enter, ref leave)
            && Clip(-d.Y, a.Y - box.Y, ref enter, ref leave) && Clip(d.Y, box.Bottom - a.Y, ref enter, ref leave);
    }

    /// <summary>True when two segments cross in their interiors.</summary>
    internal static bool Cross(SheetPoint a, SheetPoint b, SheetPoint c, SheetPoint d)
    {
        static double Side(SheetPoint o, SheetPoint p, SheetPoint q) => ((p.X - o.X) * (q.Y - o.Y)) - ((p.Y - o.Y) * (q.X - o.X));
        return Side(a, b, c) * Side(a, b, d) < 0 && Side(c, d, a) * Side(c, d, b) < 0;
    }

    private static bool Clip(double p, double q, ref double enter, ref double leave)
    {
        if (p == 0) return q >= 0;
        var t = q / p;
        if (p < 0) enter = Math.Max(enter, t);
        else leave = Math.Min(leave, t);
        return enter <= leave;
    }

    private SheetBox SquareBox(int square) =>
        new(bounds.X + (square % columns * Square), bounds.Y + (square / columns * Square), Square, Square);

    private IEnumerable<int> SquaresOf(SheetBox box)
    {
        int left = Index(box.X - bounds.X, columns), right = Index(box.Right - bounds.X, columns);
        int top = Index(box.Y - bounds.Y, rows), bottom = Index(box.Bottom - bounds.Y, rows);
        for (var row = top; row <= bottom; row++)
        {
            for (var column = left; column <= right; column++) yield return (row * columns) + column;
        }
    }

    private static int Index(double offset, int count) => Math.Clamp((int)Math.Floor(offset / Square), 0, count - 1);
}
