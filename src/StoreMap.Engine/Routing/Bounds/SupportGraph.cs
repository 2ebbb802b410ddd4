namespace StoreMap.Routing;

/// <summary>The edges with a value above 0 in a relaxed tour.</summary>
/// <param name="Count">Number of stops.</param>
/// <param name="A">One end of each edge.</param>
/// <param name="B">The other end.</param>
/// <param name="Value">Its value, in (0, 1].</param>
internal sealed record SupportGraph(int Count, int[] A, int[] B, double[] Value)
{
    /// <summary>The parts that hang together by edges with values in a range; each as a list of stops, ordered by the least.</summary>
    public List<List<int>> Parts(double least, double most)
    {
        var root = new int[Count];
        for (var i = 0; i < Count; i++) root[i] = i;
        for (var e = 0; e < A.Length; e++)
        {
            if (Value[e] < least || Value[e] > most) continue;
            int a = Root(A[e]), b = Root(B[e]);
            if (a != b) root[Math.Max(a, b)] = Math.Min(a, b);
        }

        var parts = new List<List<int>>();
        var place = new int[Count];
        for (var i = 0; i < Count; i++)
        {
            var r = Root(i);
            if (r == i)
            {
                place[i] = parts.Count;
                parts.Add([]);
            }

            parts[place[r]].Add(i);
        }

        return parts;

        int Root(int i)
        {
            while (root[i] != i) i = root[i] = root[root[i]];
            return i;
        }
    }
}
