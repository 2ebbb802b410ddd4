namespace StoreMap.Sheets;

/// <summary>Takes the stairs out of an area that was traced along cells, by cutting corners (Chaikin 1974). Only corners beside a step are
/// cut: those between long edges are real ones, of a case or a room.</summary>
internal static class Rounded
{
    private const int Passes = 3;
    private const double Straight = 1e-6;

    /// <summary>A ring, its first point not repeated.</summary>
    /// <param name="ring">At least three points, sheet millimetres.</param>
    /// <param name="step">Longest edge that is a step, sheet millimetres.</param>
    /// <returns>A ring nowhere farther than half a step from the old one.</returns>
    public static IReadOnlyList<SheetPoint> Ring(IReadOnlyList<SheetPoint> ring, double step)
    {
        for (var pass = 0; pass < Passes; pass++) ring = Cut(Thin.Ring(ring, Straight), step);
        return ring;
    }

    private static List<SheetPoint> Cut(IReadOnlyList<SheetPoint> ring, double step)
    {
        var cut = new List<SheetPoint>(2 * ring.Count);
        for (var i = 0; i < ring.Count; i++)
        {
            SheetPoint here = ring[i], back = ring[(i + ring.Count - 1) % ring.Count], ahead = ring[(i + 1) % ring.Count];
            double before = here.DistanceTo(back), after = here.DistanceTo(ahead);
            if (Math.Min(before, after) > step)
            {
                cut.Add(here);
                continue;
            }

            var most = step / 4;
            cut.Add(here + ((back - here) * (Math.Min(before / 4, most) / before)));
            cut.Add(here + ((ahead - here) * (Math.Min(after / 4, most) / after)));
        }

        return cut;
    }
}
