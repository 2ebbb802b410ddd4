namespace StoreMap.Routing;

/// <summary>An earlier order of points carried over to the groups of today: groups stay in the order and sense in which their points came;
/// what is new goes where it costs least.</summary>
internal static class KeptOrder
{
    /// <summary>Carries an order over.</summary>
    /// <param name="walk">Today's groups.</param>
    /// <param name="ids">Point ids in the earlier order; unknown ones are passed over.</param>
    public static GroupOrder Of(GroupWalk walk, IReadOnlyList<string> ids)
    {
        var place = new Dictionary<string, int>();
        foreach (var id in ids) place.TryAdd(id, place.Count);
        var known = new List<(int Group, bool Back, int Place)>();
        var fresh = new List<int>();
        for (var g = 0; g < walk.Groups.Count; g++)
        {
            int[] places = [.. walk.Groups[g].Points.Where(place.ContainsKey).Select(id => place[id])];
            if (places.Length == 0) fresh.Add(g);
            else known.Add((g, places[^1] < places[0] && walk.Groups[g].Reversible, places.Min()));
        }

        known = [.. known.OrderBy(k => walk.Ends[k.Group].Turn).ThenBy(k => k.Place)];
        var (order, back) = (known.Select(k => k.Group).ToList(), known.Select(k => k.Back).ToList());
        foreach (var group in fresh) Insert(walk, order, back, group);
        return new([.. order], [.. back]);
    }

    /// <summary>Puts a group where it costs least, within its turn; before the first place of equal cost.</summary>
    private static void Insert(GroupWalk walk, List<int> order, List<bool> back, int group)
    {
        var ends = walk.Ends[group];
        var (least, at, turned) = (double.PositiveInfinity, 0, false);
        for (var p = 0; p <= order.Count; p++)
        {
            if (p > 0 && walk.Ends[order[p - 1]].Turn > ends.Turn) break;
            if (p < order.Count && walk.Ends[order[p]].Turn < ends.Turn) continue;
            var before = p > 0 ? Exit(p - 1) : -1;
            var after = p < order.Count ? Entry(p) : -1;
            for (var sense = 0; sense < (ends.Reversible && ends.First != ends.Last ? 2 : 1); sense++)
            {
                var (entry, exit) = sense == 0 ? (ends.First, ends.Last) : (ends.Last, ends.First);
                var added = Walk(before, entry) + Walk(exit, after) - Walk(before, after);
                if (added >= least - 1e-9) continue;
                (least, at, turned) = (added, p, sense == 1);
            }
        }

        order.Insert(at, group);
        back.Insert(at, turned);

        int Exit(int p) => back[p] ? walk.Ends[order[p]].First : walk.Ends[order[p]].Last;
        int Entry(int p) => back[p] ? walk.Ends[order[p]].Last : walk.Ends[order[p]].First;
        double Walk(int from, int to) => from < 0 || to < 0 ? 0 : walk.Costs[(from * walk.Points.Count) + to];
    }
}
