using StoreMap.Plans;

namespace StoreMap.Web.Surveying;

/// <summary>How probe points are drawn.</summary>
internal static class PointLook
{
    /// <summary><c>open</c>, <c>read</c>, <c>high</c>, <c>walked</c> (its numbers are still in the monitor) or <c>skipped</c>.</summary>
    public static string StateOf(this SurveySession session, ProbePoint point) => session.Shown(point.Id) is { } read
        ? IsHigh(session, point.Id, read) ? "high" : "read"
        : session.IsWalked(point) ? session.Walked[point.Fixture!] ? "read" : "walked" : session.IsSkipped(point.Id) ? "skipped" : "open";

    // A hit, once the room's air is known; until then twice what the monitor shows from.
    private static bool IsHigh(SurveySession session, string point, string read) => session.Answer is { } answer && answer.Points.Contains(point)
        ? answer.Hits.Any(h => h.Point == point)
        : ReadingText.IsReading(read) && ReadingText.Number(read) >= 2 * session.Instrument.DetectionPpm;
}
