using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>What the service record says of one zone.</summary>
internal static class TrackService
{
    /// <summary>Findings of a zone's fixture that lie at its stretch, or whose place was not said.</summary>
    public static IReadOnlyList<ServiceFinding> Findings(Plan plan, ZoneTrack track, ServiceRecord? record, ComparisonSettings settings) =>
        record is null ? [] : [.. ServiceFinding.Of(record).Where(f => f.Entry.Fixture == track.Fixture && At(plan, track, f.Entry, settings))];

    /// <summary>All of it in words; null when there is nothing.</summary>
    public static string? InWords(Plan plan, IReadOnlyList<ServiceFinding> findings) => findings.Count switch
    {
        0 => null,
        1 => findings[0].InWords(),
        _ => string.Join("; ", findings.Select(f => $"{FindingName.Of(plan, f.Entry.Finding)}: {f.InWords()}")),
    };

    private static bool At(Plan plan, ZoneTrack track, ServiceEntry entry, ComparisonSettings settings)
    {
        if (track.Hull is not { } hull) return true;
        if (entry.Along is { } along) return track.DistanceTo(along) <= settings.ServiceReachMetres;
        var section = plan.FindFixture(track.Fixture)?.Sections.FirstOrDefault(s => s.Number == entry.Section);
        return section is null || (section.From <= hull.To && section.To >= hull.From);
    }
}
