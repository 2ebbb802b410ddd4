namespace StoreMap.Sheets;

/// <summary>Names in a sentence, cut after some with a count of the rest.</summary>
internal static class Listing
{
    public static string Of(IReadOnlyList<string> names, int most, Words words)
    {
        var shown = string.Join(", ", names.Take(Math.Max(1, most)));
        return names.Count <= Math.Max(1, most) ? shown : words.Say("list.and-more", shown, Numbers.Whole(names.Count - Math.Max(1, most)));
    }
}
