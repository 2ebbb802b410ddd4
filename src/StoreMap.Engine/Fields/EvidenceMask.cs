using StoreMap.Air;

namespace StoreMap.Fields;

/// <summary>Decides which cells may be coloured: within reach of a reading through the air, and on floor that was probed: the probed
/// cases' own air and the strip along their fronts, probed rooms and walk-ins, and the surroundings of readings on the open floor. Gaps
/// between these that are narrower than a strip are coloured too.</summary>
/// <remarks>In reach means that one reading by itself, were it a plain number, would take away the wanted share of the variance. What it
/// showed does not matter: "nothing seen" on a clean front is as much evidence as a hit, although it surprises nobody.</remarks>
internal static class EvidenceMask
{
    /// <summary>Finds the cells.</summary>
    /// <param name="grid">The grid.</param>
    /// <param name="cells">Cells with readings.</param>
    /// <param name="range">The field's range, metres.</param>
    /// <param name="settings">Least information, strip, open floor.</param>
    public static bool[] Of(AirGrid grid, IReadOnlyList<int> cells, double range, FieldSettings settings)
    {
        var reach = Within(grid, cells, MaternModel.Reach(settings.LeastInformation, range));
        return Bridged(grid, [.. Probed(grid, cells, settings).Zip(reach, (p, r) => p && r)], settings.StripMetres / 2);
    }

    private static bool[] Probed(AirGrid grid, IReadOnlyList<int> cells, FieldSettings settings)
    {
        var met = new bool[grid.Regions.Count];
        foreach (var c in cells) met[grid.RegionOf[c]] = true;
        var open = new List<int>();
        for (var c = 0; c < grid.Count; c++)
        {
            if (grid.RegionOf[c] >= 0 && met[grid.RegionOf[c]] && Kind(grid, c) == AirRegionKind.Case) open.Add(c);
        }

        open.AddRange(cells.Where(c => Kind(grid, c) != AirRegionKind.Case));
        var near = Within(grid, open, settings.StripMetres);
        var probed = new bool[grid.Count];
        for (var c = 0; c < grid.Count; c++)
        {
            if (grid.RegionOf[c] < 0) continue;
            probed[c] = Kind(grid, c) switch
            {
                AirRegionKind.Case => met[grid.RegionOf[c]],
                AirRegionKind.Floor => settings.OpenFloor || near[c],
                _ => settings.OpenFloor || met[grid.RegionOf[c]] || near[c],
            };
        }

        return probed;
    }

    /// <summary>Adds gaps of the floor: narrower than twice a radius, or than a radius along a wall (a closing, Serra 1982).</summary>
    private static bool[] Bridged(AirGrid grid, bool[] mask, double radius)
    {
        var grown = Within(grid, Cells(mask), radius);
        var away = Within(grid, Cells(grown.Select((g, c) => !g && grid.RegionOf[c] >= 0)), radius);
        return [.. mask.Select((m, c) => m || (grown[c] && !away[c] && Kind(grid, c) == AirRegionKind.Floor))];
    }

    private static bool[] Within(AirGrid grid, IEnumerable<int> from, double metres) => [.. AirDistance.From(grid, from, metres).Select(double.IsFinite)];

    private static IEnumerable<int> Cells(IEnumerable<bool> flags) => flags.Index().Where(f => f.Item).Select(f => f.Index);

    private static AirRegionKind Kind(AirGrid grid, int cell) => grid.Regions[grid.RegionOf[cell]].Kind;
}
