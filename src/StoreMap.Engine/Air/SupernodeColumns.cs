namespace StoreMap.Air;

/// <summary>Groups the columns of a factor.</summary>
internal static class SupernodeColumns
{
    /// <summary>First column of each group, and the number of columns at the end.</summary>
    public static int[] Of(EliminationTree tree, int trailing)
    {
        var n = tree.Order.Length;
        var groups = new List<Group>();
        for (var j = 0; j < n; j++)
        {
            var joins = j > 0 && j != n - trailing && tree.Parent[j - 1] == j && tree.Counts[j - 1] == tree.Counts[j] + 1;
            if (joins || (j > n - trailing)) groups[^1] = groups[^1] with { End = j + 1 };
            else groups.Add(new Group(j, j + 1, 0));
        }

        var merged = new List<Group>();
        foreach (var group in groups)
        {
            var current = group;
            while (merged.Count > 0 && !(trailing > 0 && current.Start == n - trailing) && TryMerge(tree, merged[^1], current, out var wider))
            {
                current = wider;
                merged.RemoveAt(merged.Count - 1);
            }

            merged.Add(current);
        }

        return [.. merged.Select(g => g.Start), n];
    }

    // Limits as in common practice: narrow groups may hold many zeros, wide ones few.
    private static bool TryMerge(EliminationTree tree, Group child, Group parent, out Group wider)
    {
        wider = child with { End = parent.End };
        var joint = tree.Parent[child.End - 1];
        if (joint < parent.Start || joint >= parent.End) return false;
        double rows = tree.Counts[parent.End - 1] - 1;
        double width = wider.End - wider.Start;
        var zeros = child.Zeros + parent.Zeros + ((child.End - child.Start) * (parent.End - parent.Start + rows - (tree.Counts[child.End - 1] - 1)));
        wider = wider with { Zeros = zeros };
        var share = zeros / ((width * (width + 1) / 2) + (width * rows));
        return width <= 4 || share <= (width <= 16 ? 0.5 : width <= 48 ? 0.15 : 0.05);
    }

    private sealed record Group(int Start, int End, double Zeros);
}
