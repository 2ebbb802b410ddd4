namespace StoreMap.Routing;

/// <summary>The step off a local best that the searches over groups share.</summary>
internal static class GroupKick
{
    /// <summary>Swaps two neighbouring stretches of groups that may come at any time; false when there are too few, the order then as it was.</summary>
    /// <param name="order">Groups in walking order, those of any time next to each other.</param>
    /// <param name="backwards">Per place in the order, whether its group is walked backwards.</param>
    /// <param name="groups">The groups.</param>
    /// <param name="longest">Groups in a stretch at most.</param>
    /// <param name="random">Where and how long.</param>
    public static bool SwapStretches(int[] order, bool[] backwards, IReadOnlyList<TourGroup> groups, int longest, ref SeededRandom random)
    {
        var first = Array.FindIndex(order, g => groups[g].Turn == (int)GroupTurn.Any);
        var count = order.Count(g => groups[g].Turn == (int)GroupTurn.Any);
        if (count < 2) return false;
        var a = random.Below(count - 1);
        var b = a + 1 + random.Below(Math.Min(longest, count - 1 - a));
        var c = b + 1 + random.Below(Math.Min(longest, count - b));
        (a, b, c) = (first + a, first + b, first + c);
        int[] moved = [.. order[b..c], .. order[a..b]];
        bool[] senses = [.. backwards[b..c], .. backwards[a..b]];
        moved.CopyTo(order, a);
        senses.CopyTo(backwards, a);
        return true;
    }
}
