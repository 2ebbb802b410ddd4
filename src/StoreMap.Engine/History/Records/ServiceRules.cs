using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>What hangs together over the entries of a finding; all of it warnings, since a record only grows.</summary>
internal static class ServiceRules
{
    public static void Check(IReadOnlyList<ServiceEntry> entries, ProblemList problems)
    {
        foreach (var group in entries.Select((entry, index) => (entry, index)).GroupBy(e => e.entry.Finding))
        {
            ServiceEntry? before = null;
            List<VerificationTest> tests = [];
            foreach (var (entry, index) in group)
            {
                var place = $"entries[{index}]";
                tests.AddRange(entry.Tests);
                if (before is null && entry.Status == FindingStatus.Reopened)
                    problems.Warn(place, "status", "reopened", "first-entry", $"Finding {entry.Finding} begins as reopened; it is taken as open.");
                if (entry.Date < before?.Date)
                    problems.Warn(place, "date", Words.Date(entry.Date), "date-order", $"The entry is dated before the one above it of {entry.Finding}; they are taken in the order of their dates.");
                if (entry.Status is FindingStatus.Verified or FindingStatus.FollowedUp && !Passed(tests, "initial"))
                    problems.Warn(place, "tests", null, "verified-without-test", $"Finding {entry.Finding} is {entry.Status.Kebab()} but no passed initial test is on record; every report says so.");
                if (entry.Status == FindingStatus.FollowedUp && !Passed(tests, "follow-up"))
                    problems.Warn(place, "tests", null, "followed-up-without-test", $"Finding {entry.Finding} is followed-up but no passed follow-up test is on record; every report says so.");
                if (entry.Status == FindingStatus.Reopened) tests.Clear();
                before = entry;
            }
        }
    }

    private static bool Passed(List<VerificationTest> tests, string kind) => tests.Exists(t => t.Kind == kind && t.Passed);
}
