namespace StoreMap.Routing;

/// <summary>An inequality that every tour satisfies. Without teeth: a tour crosses the border of a proper set of stops at least twice
/// (Dantzig, Fulkerson and Johnson 1954). With an odd number of teeth, edges across the border: the crossings other than teeth, less
/// the teeth, are at least one less their number (2-matching inequality, Edmonds 1965).</summary>
/// <param name="Inside">Per stop: true in the set.</param>
/// <param name="Teeth">Edges across the border, an odd number; none for a plain crossing.</param>
/// <param name="Equal">True when the border is crossed exactly twice, as of a set that is walked in one go.</param>
internal sealed record TourCut(bool[] Inside, IReadOnlyList<(int A, int B)> Teeth, bool Equal = false)
{
    /// <summary>What the crossings are at least.</summary>
    public double Side => Teeth.Count == 0 ? 2 : 1 - Teeth.Count;

    /// <summary>How an edge counts.</summary>
    public int Of(int a, int b)
    {
        if (Inside[a] == Inside[b]) return 0;
        foreach (var (s, t) in Teeth)
        {
            if ((s == a && t == b) || (s == b && t == a)) return -1;
        }

        return 1;
    }

    /// <summary>The same cut has the same text, whichever side of the border is called inside.</summary>
    public string Key()
    {
        var stops = Enumerable.Range(0, Inside.Length).Where(i => Inside[i] != Inside[0]);
        var teeth = Teeth.Select(t => t.A < t.B ? t : (t.B, t.A)).Order().Select(t => $"{t.Item1}-{t.Item2}");
        return string.Join(' ', stops) + "|" + string.Join(' ', teeth);
    }
}
