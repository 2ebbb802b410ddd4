namespace StoreMap.Sheets;

/// <summary>Usual places for labels, in order of preference.</summary>
internal static class LabelSpots
{
    /// <summary>Right, left, above, below, then the corners, at a gap from a mark.</summary>
    public static IEnumerable<LabelSpot> Around(PlanLabel label, double gap)
    {
        double x = (label.Width / 2) + gap, y = (label.Height / 2) + gap;
        (double X, double Y)[] steps =
            [(x, 0), (-x, 0), (0, -y), (0, y), (x, -y * 0.8), (-x, -y * 0.8), (x, y * 0.8), (-x, y * 0.8)];
        return steps.Select(s => new LabelSpot(new SheetPoint(label.Anchor.X + s.X, label.Anchor.Y + s.Y)));
    }

    /// <summary>Away from the anchor in one direction, nearest first, then a little to either side; leaders from the second row on.</summary>
    /// <param name="label">The label.</param>
    /// <param name="direction">Unit direction on the sheet.</param>
    /// <param name="gap">Least distance from the anchor to the box.</param>
    /// <param name="rowCount">Rows one behind the other.</param>
    public static IEnumerable<LabelSpot> Outward(PlanLabel label, SheetPoint direction, double gap, int rowCount)
    {
        var reach = (Math.Abs(direction.X) * label.Width / 2) + (Math.Abs(direction.Y) * label.Height / 2);
        var depth = 2 * reach;
        var side = new SheetPoint(-direction.Y, direction.X);
        for (var row = 0; row < rowCount; row++)
        {
            var middle = label.Anchor + (direction * (gap + reach + (row * (depth + 0.6))));
            foreach (var shift in new[] { 0, 0.8, -0.8, 1.6, -1.6 })
            {
                yield return new LabelSpot(middle + (side * (shift * label.Style.HeightMillimetres)), 0, row > 0 || Math.Abs(shift) > 1);
            }
        }
    }

    /// <summary>On rings round the anchor, with a leader.</summary>
    public static IEnumerable<LabelSpot> Rings(PlanLabel label, params double[] distances)
    {
        foreach (var distance in distances)
        {
            for (var i = 0; i < 16; i++)
            {
                var angle = ((i % 2 == 0 ? i : -i - 1) * Math.PI / 16) - (Math.PI / 4);
                var reach = (Math.Abs(Math.Cos(angle)) * label.Width / 2) + (Math.Abs(Math.Sin(angle)) * label.Height / 2) + distance;
                yield return new LabelSpot(label.Anchor + new SheetPoint(Math.Cos(angle) * reach, Math.Sin(angle) * reach), 0, true);
            }
        }
    }
}
