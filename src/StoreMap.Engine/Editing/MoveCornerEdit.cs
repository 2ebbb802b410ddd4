using System.Text.Json.Nodes;

namespace StoreMap.Editing;

/// <summary>Moves a corner of a room, an obstacle or a pit. Where both its walls are upright or level the corners next to it move along, so
/// that right angles stay right; else it moves alone.</summary>
/// <param name="Id">The element.</param>
/// <param name="Corner">Place of the corner in the outline, from 0.</param>
/// <param name="X">How far.</param>
/// <param name="Y">How far.</param>
public sealed record MoveCornerEdit(string Id, int Corner, double X, double Y) : LayoutEdit
{
    /// <summary>Lists whose elements are drawn by their corners; a fixture's size is that of its sections.</summary>
    public static readonly IReadOnlyList<string> Lists = ["rooms", "obstacles", "pits"];

    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (layout.Find(Id) is not var (list, element) || !Lists.Contains(list) || element["outline"] is not JsonArray outline || Corner < 0 || Corner >= outline.Count) return [];
        element["outline"] = new JsonArray([.. Moved([.. outline.Select(p => ((double)p![0]!, (double)p[1]!))]).Select(p => (JsonNode)LayoutElementsJson.Point(p.X, p.Y))]);
        return [Id];
    }

    /// <summary>An outline with the corner moved.</summary>
    /// <param name="outline">Its corners; this one's place is among them.</param>
    public IReadOnlyList<(double X, double Y)> Moved(IReadOnlyList<(double X, double Y)> outline)
    {
        List<(double X, double Y)> ring = [.. outline];
        int before = (Corner + ring.Count - 1) % ring.Count, after = (Corner + 1) % ring.Count;
        var (at, a, b) = (ring[Corner], ring[before], ring[after]);
        ring[Corner] = (at.X + X, at.Y + Y);
        if (!((a.X == at.X && b.Y == at.Y) || (a.Y == at.Y && b.X == at.X))) return ring;
        foreach (var (n, next) in new[] { (before, a), (after, b) }) ring[n] = next.X == at.X ? (next.X + X, next.Y) : (next.X, next.Y + Y);
        return ring;
    }
}
