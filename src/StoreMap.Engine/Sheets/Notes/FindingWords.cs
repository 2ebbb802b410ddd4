using StoreMap.History;
using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>How a finding of the service record stands, with its dates.</summary>
internal static class FindingWords
{
    /// <summary>What a finding is called, with its case; see <see cref="FindingName"/>.</summary>
    public static string Name(Plan plan, ServiceFinding f, Words words) =>
        FindingName.OfPanel(plan, f.Entry.Finding) is var (fixture, _, _) ? $"{PlaceWords.Case(fixture)} {Short(plan, f, words)}"
        : $"{f.Entry.Finding} {(f.Entry.Fixture is { } id ? CompareNotes.Tag(plan, id) : f.Entry.Equipment)}";

    /// <summary>What a finding is called where its case is named already.</summary>
    public static string Short(Plan plan, ServiceFinding f, Words words) =>
        FindingName.OfPanel(plan, f.Entry.Finding) is var (_, panel, day) ? words.Say("finding.panel", panel, Days.Of(day)) : f.Entry.Finding;

    public static string Status(ServiceFinding f, Words words)
    {
        var parts = new List<string>();
        if (f.Repaired is not { } repaired)
        {
            var since = f.Reopened ?? (f.Entry.Status == FindingStatus.Isolated ? f.Entry.Date : f.Opened);
            parts.Add(words.Say("finding.since", words["status." + f.Entry.Status.Kebab()], Days.Of(since)));
        }
        else
        {
            parts.Add(words.Say("finding.repaired", Days.Of(repaired)));
            parts.Add(f.Verified is { } verified ? words.Say("finding.verified", Days.Of(verified)) + (f.TestOnRecord ? "" : words["finding.no-test"]) : words["finding.not-verified"]);
            if (f.FollowedUp is { } followed) parts.Add(words.Say("finding.followed-up", Days.Of(followed)));
        }

        if (f.Verified is null && f.Entry.Tests.LastOrDefault(t => !t.Passed && t.Date >= (f.Reopened ?? f.Repaired ?? f.Opened)) is { } failed)
        {
            parts.Add(words.Say("finding.test-failed", Days.Of(failed.Date)));
        }

        return string.Join(", ", parts);
    }
}
