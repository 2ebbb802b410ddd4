namespace StoreMap.Plans;

/// <summary>Checks that a front or back is a line along its outline, in either direction.</summary>
internal static class LineOnRing
{
    /// <summary>Checks a line; up to 6 in off is a warning, more an error.</summary>
    /// <returns>True when the line can be used.</returns>
    public static bool Check(FieldReader reader, string field, PlanLine line, IReadOnlyList<PlanPoint> ring)
    {
        var shape = PlanShapes.Line(line.Points);
        var off = new NetTopologySuite.Algorithm.Distance.DiscreteHausdorffDistance(shape, PlanShapes.Polygon(ring).ExteriorRing) { DensifyFraction = Fraction(line) }.OrientedDistance();
        if (off > LayoutLimits.Slack + LayoutLimits.Tiny)
        {
            reader.Error(field, reader[field], field + "-on-outline",
                $"The {field} is no edge of its outline: it leaves it by {Say.Length(off, reader.Unit)}. Give two or more points along the outline, in either direction.");
            return false;
        }

        if (!shape.IsSimple || line.Length > Rings.Perimeter(ring) + LayoutLimits.Slack)
        {
            reader.Error(field, reader[field], field + "-on-outline", $"The {field} runs over itself; it must follow the outline once, in one direction.");
            return false;
        }

        if (line.Length <= LayoutLimits.Slack)
        {
            reader.Error(field, reader[field], field + "-on-outline", $"The {field} is only {Say.Length(line.Length, reader.Unit)} long; give the whole edge that is probed.");
            return false;
        }

        if (off > LayoutLimits.Rounding) reader.Warn(field, reader[field], field + "-off-outline", $"The {field} is drawn {Say.Length(off, reader.Unit)} off its outline; it is used as drawn.");
        return true;
    }

    // Pieces of about a foot, so that a corner cut off between two points on the outline is seen; a line of very many points needs none.
    private static double Fraction(PlanLine line)
    {
        var longest = Enumerable.Range(1, line.Points.Count - 1).Max(i => line.Points[i].DistanceTo(line.Points[i - 1]));
        return Math.Clamp(Math.Max(LengthUnits.MetresPerFoot / Math.Max(longest, LengthUnits.MetresPerFoot), line.Points.Count / MostPieces), 0.01, 1);
    }

    private const double MostPieces = 5000;
}
