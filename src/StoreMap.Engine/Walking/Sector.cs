using System.Runtime.CompilerServices;

namespace StoreMap.Walking;

/// <summary>The free angle at a place: counter-clockwise from direction A to direction B. In the open it is the whole circle, on a
/// wall half of it, at a corner what the two edges leave.</summary>
/// <param name="Ax">Direction where the free angle begins, lattice steps; with <paramref name="Ay"/> zero in the open.</param>
/// <param name="Ay">See <paramref name="Ax"/>.</param>
/// <param name="Bx">Direction where it ends.</param>
/// <param name="By">See <paramref name="Bx"/>.</param>
internal readonly record struct Sector(double Ax, double Ay, double Bx, double By)
{
    /// <summary>No edge near: every direction is free.</summary>
    public static Sector Open => default;

    public bool IsOpen => Ax == 0 && Ay == 0;

    /// <summary>At least half a circle: only here can a shortest path bend or slide past.</summary>
    public bool IsReflex => Lattice.Turn(Ax, Ay, Bx, By) <= 0;

    /// <summary>True when the direction does not enter what blocks.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool Allows(double ux, double uy)
    {
        if (IsOpen) return true;
        var fromA = Lattice.Turn(Ax, Ay, ux, uy);
        var toB = Lattice.Turn(ux, uy, Bx, By);
        return IsReflex ? !(fromA < 0 && toB < 0) : fromA >= 0 && toB >= 0;
    }

    /// <summary>True when the line along the direction leaves both edges on one side, so that a taut string could bend here.
    /// Holds for a direction and its opposite alike, and implies that both are allowed when the sector is reflex.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public bool IsTangent(double ux, double uy)
    {
        var a = Lattice.Turn(ux, uy, Ax, Ay);
        var b = Lattice.Turn(ux, uy, Bx, By);
        return a * b >= 0;
    }

    /// <summary>True when walking from here in the direction begins along edge A with the free floor on the left.</summary>
    public bool RunsLeft(double ux, double uy) => Same(Ax, Ay, ux, uy);

    /// <summary>True when walking from here in the direction begins along edge B with the free floor on the right.</summary>
    public bool RunsRight(double ux, double uy) => Same(Bx, By, ux, uy);

    /// <summary>True when a straight walk between two places that runs along an edge stays on the same side of it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static bool SameSide(in Sector from, in Sector to, double ux, double uy)
    {
        var left = from.RunsLeft(ux, uy);
        var right = from.RunsRight(ux, uy);
        if (!left && !right) return true;
        return (left && to.RunsRight(-ux, -uy)) || (right && to.RunsLeft(-ux, -uy));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool Same(double ax, double ay, double ux, double uy) =>
        (ax != 0 || ay != 0) && Lattice.Turn(ax, ay, ux, uy) == 0 && ((ax * ux) + (ay * uy)) > 0;
}
