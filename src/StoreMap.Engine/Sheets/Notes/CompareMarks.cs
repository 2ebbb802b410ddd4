using StoreMap.History;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The letters of a comparison: what was found at the latest visit keeps the letter of its heat map, so that one pack has one
/// letter for one thing; what was not goes on after those.</summary>
internal sealed class CompareMarks
{
    private readonly Dictionary<object, string> letters = new(ReferenceEqualityComparer.Instance);

    /// <param name="comparison">The comparison.</param>
    /// <param name="latest">The latest visit's answer, as its heat map shows it; null when it is not at hand.</param>
    public CompareMarks(Comparison comparison, LocateResult? latest)
    {
        var next = latest is null ? 0 : latest.Zones.Count + latest.Elsewhere.Count;
        foreach (var zone in comparison.Zones) letters[zone] = ZonesPass.Letter(IndexOf(latest?.Zones, zone.Now) ?? next++);
        foreach (var source in comparison.Sources) letters[source] = ZonesPass.Letter(latest?.Zones.Count + IndexOf(latest?.Elsewhere, source.Now) ?? next++);
    }

    /// <summary>The letter of a zone.</summary>
    public string this[ZoneHistory zone] => letters[zone];

    /// <summary>The letter of a source outside the cases.</summary>
    public string this[SourceHistory source] => letters[source];

    private static int? IndexOf<T>(IReadOnlyList<T>? list, T? item)
        where T : class
    {
        for (var i = 0; item is not null && i < list?.Count; i++)
        {
            if (ReferenceEquals(list[i], item)) return i;
        }

        return null;
    }
}
