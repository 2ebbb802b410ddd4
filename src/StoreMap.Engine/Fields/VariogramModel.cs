namespace StoreMap.Fields;

/// <summary>Shapes of a variogram between 0 and its sill.</summary>
public enum VariogramShape
{
    /// <summary>1.5 h/a − 0.5 (h/a)³ up to the range a, then 1.</summary>
    Spherical,

    /// <summary>1 − exp(−h/a); 95 % is reached at 3a.</summary>
    Exponential,

    /// <summary>1 − exp(−(h/a)²).</summary>
    Gaussian,
}

/// <summary>A variogram: gamma(h) = nugget + partial sill · f(h) for h above 0, and 0 at 0. Source: Isaaks and Srivastava 1989,
/// chapter 16; conventions of the R package gstat.</summary>
public sealed record VariogramModel
{
    /// <summary>Makes a model.</summary>
    /// <param name="shape">Shape.</param>
    /// <param name="nugget">Variance at no distance, at least 0.</param>
    /// <param name="partialSill">Rise above the nugget, at least 0; nugget and partial sill are not both 0.</param>
    /// <param name="range">The parameter a of the shape, metres, greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A parameter is out of range.</exception>
    public VariogramModel(VariogramShape shape, double nugget, double partialSill, double range)
    {
        ArgumentOutOfRangeException.ThrowIfEqual(double.IsFinite(nugget + partialSill + range), false, nameof(nugget));
        ArgumentOutOfRangeException.ThrowIfNegative(nugget);
        ArgumentOutOfRangeException.ThrowIfNegative(partialSill);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(range);
        ArgumentOutOfRangeException.ThrowIfZero(nugget + partialSill, nameof(partialSill));
        Shape = shape;
        Nugget = nugget;
        PartialSill = partialSill;
        Range = range;
    }

    /// <summary>Shape.</summary>
    public VariogramShape Shape { get; }

    /// <summary>Variance at no distance.</summary>
    public double Nugget { get; }

    /// <summary>Rise above the nugget.</summary>
    public double PartialSill { get; }

    /// <summary>The parameter a of the shape, metres.</summary>
    public double Range { get; }

    /// <summary>Nugget and partial sill together: the variance far from everything.</summary>
    public double Sill => Nugget + PartialSill;

    /// <summary>Half the mean squared difference at a distance.</summary>
    /// <param name="distance">Metres, at least 0.</param>
    public double Gamma(double distance) => distance == 0 ? 0 : Nugget + (PartialSill * Rise(Shape, distance / Range));

    /// <summary>Covariance at a distance: the sill less gamma.</summary>
    /// <param name="distance">Metres, at least 0.</param>
    public double Covariance(double distance) => Sill - Gamma(distance);

    /// <summary>The shape's f at a distance in ranges, [0, 1].</summary>
    internal static double Rise(VariogramShape shape, double ratio) => shape switch
    {
        VariogramShape.Spherical => ratio >= 1 ? 1 : ratio * (1.5 - (0.5 * ratio * ratio)),
        VariogramShape.Exponential => -double.ExpM1(-ratio),
        VariogramShape.Gaussian => -double.ExpM1(-ratio * ratio),
        _ => throw new ArgumentOutOfRangeException(nameof(shape), shape, "Unknown variogram shape."),
    };
}
