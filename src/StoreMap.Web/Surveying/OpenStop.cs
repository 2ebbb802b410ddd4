using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Web.Surveying;

/// <summary>A stop-work reading that nobody answered yet.</summary>
/// <param name="Work">Why work stopped.</param>
/// <param name="Limits">The readings at which it stops there.</param>
/// <param name="Entries">The reading and the stop, to be taken back together.</param>
/// <param name="At">Where it was read; null when that is no point now.</param>
public sealed record OpenStop(StoppedWork Work, StopWork Limits, IReadOnlyList<string> Entries, ProbePoint? At)
{
    // What may be put back, handed over or left while a stop stands is no answer to it.
    private static readonly string[] Beside = [JournalKinds.CheckIn, JournalKinds.Restored, JournalKinds.HandedOver, JournalKinds.LeftOff];

    /// <summary>The stop that stands on this device: the last that it noted, since closing the page is no answer; null when work goes on.</summary>
    public static OpenStop? Of(SurveySession session)
    {
        var mine = session.State.Events.Where(e => e.Device == session.Device && !Beside.Contains(e.Kind)).OrderBy(e => e.Number).ToList();
        if (mine.LastOrDefault() is not { Kind: JournalKinds.StopWork } last || session.State.Stops.LastOrDefault(s => s.Time == last.Time) is not { } work) return null;
        var read = mine.LastOrDefault(e => e.Kind == JournalKinds.Reading);
        var at = session.Points.FirstOrDefault(p => p.Id == (string?)read?.Body["point"]);
        return new OpenStop(work, at is null ? StopWork.At(session.Plan, null, 0) : session.Limits(at), read is null ? [last.Id] : [read.Id, last.Id], at);
    }
}
