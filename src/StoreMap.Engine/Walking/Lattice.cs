using System.Runtime.CompilerServices;

namespace StoreMap.Walking;

/// <summary>The integer lattice on which all decisions of this room are exact. One step is 0.01 µm, so that millimetres, hundredths
/// of a foot and sixteenths of an inch fall on it; coordinates are whole numbers held in doubles, safe up to ±100 km.</summary>
internal static class Lattice
{
    /// <summary>Steps in a metre.</summary>
    public const double PerMetre = 1e8;

    /// <summary>Farthest coordinate allowed, metres; keeps differences exact and products within 128 bits.</summary>
    public const double ReachMetres = 1e5;

    // Shewchuk 1997: the rounded determinant is off by less than (3 + 16u)u times the sum of the products, u = 2^-53.
    private const double ErrorFactor = 3.3306690738754716e-16;

    public static double FromMetres(double metres) => Math.Round(metres * PerMetre);

    public static double ToMetres(double steps) => steps / PerMetre;

    /// <summary>Sign of the cross product of two direction vectors: 1 when b points to the left of a, -1 right, 0 parallel.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Turn(double ax, double ay, double bx, double by)
    {
        var left = ax * by;
        var right = ay * bx;
        var det = left - right;
        if (left > 0)
        {
            if (right <= 0) return 1;
        }
        else if (left < 0)
        {
            if (right >= 0) return -1;
        }
        else
        {
            // A product of whole numbers is rounded to zero only when it is zero.
            return -Math.Sign(right);
        }

        var bound = ErrorFactor * Math.Abs(left + right);
        if (det > bound) return 1;
        if (det < -bound) return -1;
        return Int128.Sign(((Int128)(long)ax * (long)by) - ((Int128)(long)ay * (long)bx));
    }

    /// <summary>On which side of the line from a to b the point c lies: 1 left, -1 right, 0 on it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Side(double ax, double ay, double bx, double by, double cx, double cy) =>
        Turn(bx - ax, by - ay, cx - ax, cy - ay);
}
