namespace StoreMap.Sheets;

/// <summary>A line of a list that may be cut.</summary>
/// <param name="Text">The line.</param>
/// <param name="Count">How many things it tells of.</param>
/// <param name="First">True for a line that is kept before others.</param>
internal sealed record CutLine(string Text, int Count = 1, bool First = false);

/// <summary>Lists of lines, cut with a word of what is left out.</summary>
internal static class CutLines
{
    /// <summary>The lines that tell most, in their own order, and a line for the rest.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="most">Most lines, at least 1.</param>
    /// <param name="rest">What is said of the rest, given how many things they tell of.</param>
    public static IEnumerable<FlowItem> Bullets(IReadOnlyList<CutLine> lines, int most, Func<int, string> rest)
    {
        var kept = lines.Index().OrderByDescending(l => l.Item.First).ThenByDescending(l => l.Item.Count).ThenBy(l => l.Index).Take(most).Select(l => l.Index).ToHashSet();
        foreach (var (_, line) in lines.Index().Where(l => kept.Contains(l.Index))) yield return NoteItems.Bullet(line.Text);
        if (kept.Count < lines.Count) yield return NoteItems.Bullet(rest(lines.Index().Where(l => !kept.Contains(l.Index)).Sum(l => l.Item.Count)));
    }
}
