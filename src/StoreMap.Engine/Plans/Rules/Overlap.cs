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
}
