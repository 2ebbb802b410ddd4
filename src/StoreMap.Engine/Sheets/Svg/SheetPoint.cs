namespace StoreMap.Sheets;

/// <summary>A point on a sheet: millimetres from the upper left corner of the page, x right, y down.</summary>
/// <param name="X">Millimetres to the right.</param>
/// <param name="Y">Millimetres down.</param>
internal readonly record struct SheetPoint(double X, double Y)
{
    // Nothing on a sheet is so large or small that its square would not do.
    public double DistanceTo(SheetPoint other) => Math.Sqrt(((X - other.X) * (X - other.X)) + ((Y - other.Y) * (Y - other.Y)));

    public static SheetPoint operator +(SheetPoint a, SheetPoint b) => new(a.X + b.X, a.Y + b.Y);

    public static SheetPoint operator -(SheetPoint a, SheetPoint b) => new(a.X - b.X, a.Y - b.Y);

    public static SheetPoint operator *(SheetPoint a, double factor) => new(a.X * factor, a.Y * factor);
}

/// <summary>An upright rectangle on a sheet, millimetres.</summary>
/// <param name="X">Left edge.</param>
/// <param name="Y">Upper edge.</param>
/// <param name="Width">Width, at least 0.</param>
/// <param name="Height">Height, at least 0.</param>
internal readonly record struct SheetBox(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;

    public double Bottom => Y + Height;

    /// <summary>The corners, clockwise from the upper left.</summary>
    public IReadOnlyList<SheetPoint> Corners => [new(X, Y), new(Right, Y), new(Right, Bottom), new(X, Bottom)];

    public SheetPoint Middle => new(X + (Width / 2), Y + (Height / 2));

    /// <summary>The box made smaller on every side; larger when the margin is negative.</summary>
    public SheetBox Inset(double margin) => new(X + margin, Y + margin, Width - (2 * margin), Height - (2 * margin));

    /// <summary>True when the interiors meet; touching edges do not.</summary>
    public bool Overlaps(SheetBox other) => X < other.Right && other.X < Right && Y < other.Bottom && other.Y < Bottom;

    /// <summary>True when the other box lies inside or on the edge.</summary>
    public bool Contains(SheetBox other) => other.X >= X && other.Right <= Right && other.Y >= Y && other.Bottom <= Bottom;

    /// <summary>True when the point lies inside or on the edge.</summary>
    public bool Contains(SheetPoint p) => p.X >= X && p.X <= Right && p.Y >= Y && p.Y <= Bottom;

    /// <summary>The smallest box around points.</summary>
    public static SheetBox Around(IEnumerable<SheetPoint> points)
    {
        double left = double.PositiveInfinity, top = double.PositiveInfinity;
        double right = double.NegativeInfinity, bottom = double.NegativeInfinity;
        foreach (var p in points)
        {
            left = Math.Min(left, p.X);
            right = Math.Max(right, p.X);
            top = Math.Min(top, p.Y);
            bottom = Math.Max(bottom, p.Y);
        }

        return new SheetBox(left, top, right - left, bottom - top);
    }
}
