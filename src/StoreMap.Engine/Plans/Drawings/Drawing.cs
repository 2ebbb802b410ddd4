namespace StoreMap.Plans;

/// <summary>One line or closed figure of a drawing, its curves made of short straight pieces.</summary>
/// <param name="Type">What the file calls it, such as <c>LWPOLYLINE</c> or <c>rect</c>.</param>
/// <param name="Layer">The layer it shows on; in a DXF block, layer <c>0</c> takes the layer of the insert.</param>
/// <param name="Source">Where it is drawn: <c>model</c>, or the blocks it came through, such as <c>model/BAY/COOLER</c>.</param>
/// <param name="Closed">True for a figure with an inside.</param>
/// <param name="Points">Metres, y up; the first point of a closed figure is not repeated.</param>
internal sealed record DrawnShape(string Type, string Layer, string Source, bool Closed, IReadOnlyList<PlanPoint> Points)
{
    /// <summary>Length along the pieces, the closing one included, metres.</summary>
    public double Length => Closed ? Rings.Perimeter(Points) : Points.Zip(Points.Skip(1), (a, b) => a.DistanceTo(b)).Sum();
}

/// <summary>A text of a drawing.</summary>
/// <param name="Text">As shown, without format codes; lines parted by <c>\n</c>.</param>
/// <param name="Layer">The layer it shows on.</param>
/// <param name="At">Its insertion point, metres.</param>
internal sealed record DrawnLabel(string Text, string Layer, PlanPoint At);

/// <summary>What a plan drawing shows, in metres, y up.</summary>
/// <param name="Unit">The drawing's own unit, or the nearest that a layout can have.</param>
/// <param name="Shapes">In the order of the file, blocks expanded.</param>
/// <param name="Labels">In the order of the file.</param>
internal sealed record Drawing(LengthUnit Unit, IReadOnlyList<DrawnShape> Shapes, IReadOnlyList<DrawnLabel> Labels);

/// <summary>Bounds on what a drawing may hold, so that a hostile file can't fill the memory.</summary>
internal static class DrawingLimits
{
    /// <summary>Shapes and texts after blocks are expanded.</summary>
    public const int MostShapes = 50_000;

    /// <summary>Points of all shapes.</summary>
    public const int MostPoints = 1_000_000;

    /// <summary>Blocks within blocks.</summary>
    public const int MostDepth = 16;

    /// <summary>Coordinates beyond this, metres from the origin, are no store's.</summary>
    public const double Farthest = 100_000;
}
