using StoreMap.History;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>The letters of a comparison: what was found at the latest visit keeps the letter of its heat map, so that one pack has one
/// letter for one thing; what only earlier visits had has one from the end
/// of the alphabet. A zone or source of an earlier visit has the letter of what it is followed to.</summary>
public sealed class CompareMarks
{
    private readonly Dictionary<object, string> letters = new(ReferenceEqualityComparer.Instance);

    /// <summary>Gives out the letters.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="latest">The latest visit's answer, as its heat map shows it; null when it is not at hand.</param>
    public CompareMarks(Comparison comparison, LocateResult? latest)
    {
        var earlier = 0;
        string Next() => LeakLetters.Earlier(earlier++, latest is null ? 0 : latest.Zones.Count + latest.Elsewhere.Count);
        foreach (var zone in comparison.Zones) Give(IndexOf(latest?.Zones, zone.Now) is { } i ? LeakLetters.Of(i) : Next(), zone, zone.Sightings);
        foreach (var source in comparison.Sources) Give(latest?.Zones.Count + IndexOf(latest?.Elsewhere, source.Now) is { } i ? LeakLetters.Of(i) : Next(), source, source.Sightings);
        // What is too doubtful to be followed has its letter on the latest heat map alone.
        foreach (var (i, found) in (latest is null ? [] : latest.Zones.Concat<object>(latest.Elsewhere)).Index()) letters.TryAdd(found, LeakLetters.Of(i));
    }

    /// <summary>The letter of a zone.</summary>
    public string this[ZoneHistory zone] => letters[zone];

    /// <summary>The letter of a source outside the cases.</summary>
    public string this[SourceHistory source] => letters[source];

    /// <summary>The letter of what was located at a visit, a <see cref="LeakZone"/> or an <see cref="Elsewhere"/>; null where an earlier visit's was
    /// too doubtful to be followed.</summary>
    internal string? Of(object found) => letters.GetValueOrDefault(found);

    private void Give(string letter, object history, IEnumerable<object?> sightings)
    {
        letters[history] = letter;
        foreach (var sighting in sightings.OfType<object>()) letters[sighting] = letter;
    }

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
