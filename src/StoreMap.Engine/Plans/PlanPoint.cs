namespace StoreMap.Plans;

/// <summary>A point on the plan: metres, x right, y up.</summary>
/// <param name="X">Metres to the right of the layout's origin.</param>
/// <param name="Y">Metres up from the layout's origin.</param>
public readonly record struct PlanPoint(double X, double Y)
{
    /// <summary>Straight distance to another point, metres.</summary>
    public double DistanceTo(PlanPoint other) => double.Hypot(X - other.X, Y - other.Y);

    /// <summary>Component sum.</summary>
    public static PlanPoint operator +(PlanPoint a, PlanPoint b) => new(a.X + b.X, a.Y + b.Y);

    /// <summary>Component difference.</summary>
    public static PlanPoint operator -(PlanPoint a, PlanPoint b) => new(a.X - b.X, a.Y - b.Y);

    /// <summary>Scaled by a factor.</summary>
    public static PlanPoint operator *(PlanPoint a, double factor) => new(a.X * factor, a.Y * factor);

    /// <summary>Dot product.</summary>
    public double Dot(PlanPoint other) => (X * other.X) + (Y * other.Y);

    /// <summary>Cross product, positive when <paramref name="other"/> lies to the left of this direction.</summary>
    public double Cross(PlanPoint other) => (X * other.Y) - (Y * other.X);
}

/// <summary>A straight piece between two plan points.</summary>
/// <param name="A">First end.</param>
/// <param name="B">Second end.</param>
public readonly record struct PlanSegment(PlanPoint A, PlanPoint B)
{
    /// <summary>Length in metres.</summary>
    public double Length => A.DistanceTo(B);

    /// <summary>The middle of the segment.</summary>
    public PlanPoint Middle => (A + B) * 0.5;

    /// <summary>The nearest point of the segment to <paramref name="p"/>.</summary>
    public PlanPoint Nearest(PlanPoint p)
    {
        var d = B - A;
        var square = d.Dot(d);
        return square == 0 ? A : A + (d * Math.Clamp((p - A).Dot(d) / square, 0, 1));
    }
}
