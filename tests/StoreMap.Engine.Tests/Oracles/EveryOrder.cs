namespace StoreMap.Tests.Oracles;

/// <summary>Tries every order; for a handful of items only.</summary>
internal static class EveryOrder
{
    /// <summary>All permutations of 0 to count - 1.</summary>
    public static IEnumerable<int[]> Of(int count)
    {
        var order = Enumerable.Range(0, count).ToArray();
        return Permute(order, 0);
    }

    private static IEnumerable<int[]> Permute(int[] order, int from)
    {
        if (from == order.Length)
        {
            yield return [.. order];
            yield break;
        }

        for (var i = from; i < order.Length; i++)
        {
            (order[from], order[i]) = (order[i], order[from]);
            foreach (var p in Permute(order, from + 1)) yield return p;
            (order[from], order[i]) = (order[i], order[from]);
        }
    }
}
