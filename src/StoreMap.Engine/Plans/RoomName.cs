namespace StoreMap.Plans;

/// <summary>Finds where a room's name can be read on a plan, clear of what stands in the room. Any unit, y up.</summary>
public static class RoomName
{
    private const int Steps = 16;

    /// <summary>The middle of the name.</summary>
    /// <param name="room">The room's outline.</param>
    /// <param name="width">Of the name.</param>
    /// <param name="height">Of the name.</param>
    /// <param name="taken">Boxes of what stands in and round the room.</param>
    /// <returns>The place nearest the room's middle that lies in the room and on nothing; where there is none, the one least covered.</returns>
    public static PlanPoint Place(
        IReadOnlyList<PlanPoint> room, double width, double height, IReadOnlyList<(double X0, double Y0, double X1, double Y1)> taken)
    {
        double x0 = room.Min(p => p.X), x1 = room.Max(p => p.X), y0 = room.Min(p => p.Y), y1 = room.Max(p => p.Y);
        var middle = new PlanPoint((x0 + x1) / 2, (y0 + y1) / 2);
        // A name wider than its room stays in the middle across it, and only goes up and down; what stands beside the room may hide it.
        double reachX = Math.Max(x1 - x0, width) / 2, reachY = Math.Max(y1 - y0, height) / 2;
        List<(double X0, double Y0, double X1, double Y1)> near =
            [.. taken.Where(t => t.X0 < middle.X + reachX && t.X1 > middle.X - reachX && t.Y0 < middle.Y + reachY && t.Y1 > middle.Y - reachY)];
        if (Hidden(middle) == 0) return middle;
        double roomX = Math.Max(0, x1 - x0 - width), roomY = Math.Max(0, y1 - y0 - height);
        return Enumerable.Range(0, (Steps + 1) * (Steps + 1))
            .Select(i => middle + new PlanPoint(((i % (Steps + 1) / (double)Steps) - 0.5) * roomX, ((i / (Steps + 1) / (double)Steps) - 0.5) * roomY))
            .OrderBy(Hidden).ThenBy(p => p.DistanceTo(middle)).First();

        // The share that lies under something, and, where it counts for more, out of the room.
        double Hidden(PlanPoint p)
        {
            double left = p.X - (width / 2), right = p.X + (width / 2), low = p.Y - (height / 2), high = p.Y + (height / 2);
            var under = near.Sum(t => Math.Max(0, Math.Min(right, t.X1) - Math.Max(left, t.X0)) * Math.Max(0, Math.Min(high, t.Y1) - Math.Max(low, t.Y0)));
            // On a wall is not out of the room.
            var corners = new PlanPoint[] { new(left, low), new(right, low), new(right, high), new(left, high) }.Select(c => p + ((c - p) * 0.98)).Append(p);
            return Math.Round(under / (width * height), 6) + corners.Count(c => !Rings.Contains(room, c));
        }
    }
}
