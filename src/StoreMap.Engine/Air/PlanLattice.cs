using StoreMap.Plans;

namespace StoreMap.Air;

/// <summary>A point on the integer lattice of half micrometres on which the grid's predicates are exact.</summary>
/// <param name="X">Half micrometres to the right of the layout's origin.</param>
/// <param name="Y">Half micrometres up from the layout's origin.</param>
internal readonly record struct LatticePoint(long X, long Y);

/// <summary>Converts between plan metres and the lattice. Plan points fall on whole micrometres (even numbers), so the middle of
/// two of them is a lattice point too, and sums do not depend on their order.</summary>
internal static class PlanLattice
{
    /// <summary>Lattice units in a metre.</summary>
    public const double UnitsPerMetre = 2e6;

    /// <summary>The lattice point nearest to a plan point.</summary>
    public static LatticePoint Snap(PlanPoint p) => new(Snap(p.X), Snap(p.Y));

    /// <summary>The even lattice coordinate nearest to a length in metres.</summary>
    public static long Snap(double metres) => 2 * (long)Math.Round(metres * UnitsPerMetre / 2, MidpointRounding.AwayFromZero);

    /// <summary>Metres of a lattice coordinate.</summary>
    public static double Metres(long units) => units / UnitsPerMetre;

    /// <summary>Floor of the quotient, exact for either sign.</summary>
    public static long FloorDivide(Int128 numerator, Int128 denominator)
    {
        var (quotient, remainder) = Int128.DivRem(numerator, denominator);
        return (long)(remainder != 0 && (remainder < 0) != (denominator < 0) ? quotient - 1 : quotient);
    }
}
