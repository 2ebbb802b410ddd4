namespace StoreMap.Sheets;

/// <summary>Names in a sentence, cut after some with a count of the rest.</summary>
internal static class Listing
{
    private const int MostTyped = 200;

    public static string Of(IReadOnlyList<string> names, int most, Words words)
    {
        // Names that are lists themselves are kept apart.
        var shown = string.Join(names.Any(n => n.Contains(',', StringComparison.Ordinal)) ? "; " : ", ", names.Take(Math.Max(1, most)));
        return names.Count <= Math.Max(1, most) ? shown : words.Say("list.and-more", shown, Numbers.Whole(names.Count - Math.Max(1, most)));
    }

    /// <summary>What someone typed, in one line and no longer than a note is on a device.</summary>
    public static string Typed(string text)
    {
        var line = string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        if (line.Length <= MostTyped) return line;
        var end = char.IsHighSurrogate(line[MostTyped - 1]) ? MostTyped - 1 : MostTyped;
        return line[..end].TrimEnd() + "…";
    }
}
