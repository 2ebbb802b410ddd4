namespace StoreMap.Sheets;

/// <summary>Names in a sentence, cut after some with a count of the rest.</summary>
internal static class Listing
{
    public static string Of(IReadOnlyList<string> names, int most, Words words)
    {
        // Names that are lists themselves are kept apart.
        var shown = string.Join(names.Any(n => n.Contains(',', StringComparison.Ordinal)) ? "; " : ", ", names.Take(Math.Max(1, most)));
        return names.Count <= Math.Max(1, most) ? shown : words.Say("list.and-more", shown, Numbers.Whole(names.Count - Math.Max(1, most)));
    }
}
