namespace StoreMap.Plans;

/// <summary>A plane map <c>x' = A x + C y + E</c>, <c>y' = B x + D y + F</c>.</summary>
internal readonly record struct Affine(double A, double B, double C, double D, double E, double F)
{
    /// <summary>Leaves every point where it is.</summary>
    public static readonly Affine Identity = new(1, 0, 0, 1, 0, 0);

    /// <summary>Moves.</summary>
    public static Affine Move(double x, double y) => new(1, 0, 0, 1, x, y);

    /// <summary>Stretches along the axes.</summary>
    public static Affine Scale(double x, double y) => new(x, 0, 0, y, 0, 0);

    /// <summary>Turns counter-clockwise by degrees (in axes with y up).</summary>
    public static Affine Turn(double degrees)
    {
        var (sin, cos) = double.SinCos(degrees * Math.PI / 180);
        return new(cos, sin, -sin, cos, 0, 0);
    }

    /// <summary>The largest stretch of any direction (the larger singular value).</summary>
    public double Stretch
    {
        get
        {
            double sum = (A * A) + (B * B) + (C * C) + (D * D), det = (A * D) - (B * C);
            return Math.Sqrt((sum + Math.Sqrt(Math.Max(0, (sum * sum) - (4 * det * det)))) / 2);
        }
    }

    /// <summary>This map after <paramref name="inner"/>.</summary>
    public Affine After(Affine inner) => new(
        (A * inner.A) + (C * inner.B), (B * inner.A) + (D * inner.B),
        (A * inner.C) + (C * inner.D), (B * inner.C) + (D * inner.D),
        (A * inner.E) + (C * inner.F) + E, (B * inner.E) + (D * inner.F) + F);

    /// <summary>A point mapped.</summary>
    public PlanPoint Of(PlanPoint p) => new((A * p.X) + (C * p.Y) + E, (B * p.X) + (D * p.Y) + F);
}
