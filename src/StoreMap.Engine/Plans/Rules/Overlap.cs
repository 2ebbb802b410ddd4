using NetTopologySuite.Geometries;
using NetTopologySuite.Operation.Buffer;

namespace StoreMap.Plans;

/// <summary>How deep a piece of floor is that two shapes claim, or one leaves over.</summary>
internal static class Overlap
{
    private static readonly BufferParameters Mitred = new(1, EndCapStyle.Flat, JoinStyle.Mitre, 2);

    /// <summary>True when a square of that side or a strip of that width lies in the shape.</summary>
    public static bool IsDeeperThan(Geometry shape, double depth) =>
        shape.Dimension == Dimension.Surface && shape.Area > depth * depth / 2
        && !BufferOp.Buffer(shape, -(depth / 2) - LayoutLimits.Tiny, Mitred).IsEmpty;

    /// <summary>True when two boxes share area: a quick first look before shapes are cut.</summary>
    public static bool BoxesMeet((PlanPoint Low, PlanPoint High) a, (PlanPoint Low, PlanPoint High) b) =>
        a.Low.X < b.High.X && b.Low.X < a.High.X && a.Low.Y < b.High.Y && b.Low.Y < a.High.Y;
}
