using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Sheets;

/// <summary>What a visit did not cover: cases without readings, points passed over and why, points that were just left out.</summary>
internal static class GapNotes
{
    /// <summary>Lines of skipped points before they are cut.</summary>
    private const int MostLines = 10;

    /// <summary>Names in one line before it is cut.</summary>
    private const int MostNames = 16;

    /// <summary>The section; nothing where there is no gap.</summary>
    public static IEnumerable<FlowItem> Items(Plan plan, LocateResult located, VisitAccount? account, Words words)
    {
        List<FlowItem> items = [.. WithoutReadings(plan, located, account, words), .. Skipped(plan, account, words), .. Unread(plan, located, account, words)];
        return items.Count == 0 ? [] : [NoteItems.Heading(words["report.uncovered"]), .. items, NoteItems.Gap(4)];
    }

    /// <summary>Points of the planned walk left out at cases that were probed; those without readings are named by themselves.</summary>
    public static int PointsLeft(LocateResult located, VisitAccount? account)
    {
        bool Counts(ProbePoint? p) => p?.Fixture is { } fixture && !located.NotProbed.Contains(fixture);
        return account is null ? 0 : account.Skipped.Count(s => Counts(s.Point)) + account.Unread.Count(Counts);
    }

    /// <summary>Cases without a reading, unless all their points stand among those skipped.</summary>
    private static IEnumerable<FlowItem> WithoutReadings(Plan plan, LocateResult located, VisitAccount? account, Words words)
    {
        var skipped = account?.Skipped.Select(s => s.Id).ToHashSet() ?? [];
        var told = account?.Points.Where(p => p.Pass != ProbePass.CloseIn).GroupBy(p => p.Fixture ?? "").Where(g => g.All(p => skipped.Contains(p.Id))).Select(g => g.Key).ToHashSet() ?? [];
        var cases = located.NotProbed.Where(id => !told.Contains(id)).Select(id => CompareNotes.Tag(plan, id)).ToList();
        if (cases.Count > 0) yield return NoteItems.Bullet(words.Say("report.fixtures", Listing.Of(cases, MostNames, words)));
    }

    private static IEnumerable<FlowItem> Skipped(Plan plan, VisitAccount? account, Words words)
    {
        if (account is null) return [];
        return CutLines.Bullets(SkipLines.Of(plan, account, words), MostLines, rest => words.Say("gaps.more-points", rest));
    }

    /// <summary>Planned points neither read nor skipped, counted by case.</summary>
    private static IEnumerable<FlowItem> Unread(Plan plan, LocateResult located, VisitAccount? account, Words words)
    {
        if (account is null) yield break;
        var planned = account.Points.Where(p => p.Pass != ProbePass.CloseIn).ToLookup(p => p.Fixture);
        var cases = account.Unread.GroupBy(p => p.Fixture!).Where(g => !located.NotProbed.Contains(g.Key))
            .Select(g => words.Say("gaps.of", CompareNotes.Tag(plan, g.Key), g.Count(), planned[g.Key].Count())).ToList();
        if (cases.Count > 0) yield return NoteItems.Bullet(words.Say("gaps.unread", Listing.Of(cases, MostNames, words)));
    }
}
