using StoreMap.Surveys;

namespace StoreMap.Web.Surveying;

/// <summary>A stop-work reading that nobody answered yet.</summary>
internal static class OpenStop
{
    /// <summary>The stop that stands on this device: the last that it noted, since closing the page is no answer; null when work goes on.</summary>
    public static (StoppedWork Work, StopWork Limits)? Of(SurveySession session)
    {
        var mine = session.State.Events.Where(e => e.Device == session.Device).OrderBy(e => e.Number).ToList();
        if (mine.LastOrDefault() is not { Kind: JournalKinds.StopWork } last || session.State.Stops.LastOrDefault(s => s.Time == last.Time) is not { } work) return null;
        var read = mine.LastOrDefault(e => e.Kind == JournalKinds.Reading);
        return (work, session.Points.FirstOrDefault(p => p.Id == (string?)read?.Body["point"]) is { } point ? session.Limits(point) : StopWork.At(session.Plan, null, 0));
    }
}
