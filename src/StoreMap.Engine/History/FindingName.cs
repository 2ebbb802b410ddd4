using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.History;

/// <summary>What people are told a finding is called. One that somebody named has that name; one that a leak confirmed behind a panel opened has an
/// id of that panel and day, and is called by the case's tag, the panel and the day. Ids stay as they are kept.</summary>
public static class FindingName
{
    /// <summary>The panel and day of a finding that a confirmed panel opened.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="finding">Its id.</param>
    /// <returns>Null for a finding that somebody named, and where the plan has no such case.</returns>
    public static (Fixture Fixture, string Panel, DateOnly Day)? OfPanel(Plan plan, string finding)
    {
        var (space, slash) = (finding.LastIndexOf(' '), finding.LastIndexOf('/'));
        if (slash < 0 || space < slash || !DateOnly.TryParseExact(finding.AsSpan(space + 1), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)) return null;
        return plan.FindFixture(finding[..slash]) is { } fixture ? (fixture, finding[(slash + 1)..space], day) : null;
    }

    /// <summary>Its name, such as <c>27A panel 5, found 2026-08-04</c>.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="finding">Its id.</param>
    public static string Of(Plan plan, string finding) => OfPanel(plan, finding) is var (fixture, panel, day)
        ? FormattableString.Invariant($"{fixture.Tag} panel {panel}, found {day:yyyy-MM-dd}") : finding;
}
