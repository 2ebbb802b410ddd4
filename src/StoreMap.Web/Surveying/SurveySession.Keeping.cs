using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Surveying;

/// <content>What is kept of the visit, and taken back.</content>
public sealed partial class SurveySession
{
    /// <summary>Keeps a reading at the current point. It is on the disk when this returns.</summary>
    /// <param name="ppm">As typed: 12, &lt;1, &gt;1000.</param>
    /// <param name="note">May be empty.</param>
    public async Task<bool> Save(string ppm, string note)
    {
        if (Current is not { } point || !ReadingText.IsReading(ppm, Instrument.RangePpm)) return false;
        var began = clock.GetTimestamp();
        var body = ReadingText.Body(Plan, point, ppm, Height, Air, note, Gas(point));
        if (Air == AirState.FansOff && State.Open.FirstOrDefault(i => i.What == "fans-off" && i.Fixture == point.Fixture) is { } off)
            body["since"] = Math.Round((clock.GetUtcNow() - off.Since).TotalSeconds);
        var before = Like(body);
        var clearing = Clearing is not null;
        var kept = await journal.Note(JournalKinds.Reading, body);
        SaveMilliseconds = clock.GetElapsedTime(began).TotalMilliseconds;
        foreach (var e in before) await journal.Note(JournalKinds.Withdraw, new JsonObject { ["of"] = e.Id, ["reason"] = "read again" });
        shown[point.Id] = ppm;
        var (place, value) = (Say.Place(ShownPlan, point), ReadingText.Number(ppm));
        var instead = before.Count > 0 ? $" in place of {(string?)before[^1].Body["ppm"]}" : "";
        var unclean = point.Pass == ProbePass.Zero && value > 0 ? ". Clean air shows 0: warm it up or zero it again" : "";
        Tell($"{place}: {ppm} ppm kept on this device{instead}{unclean}", new KeptEntries([kept], $"{place}, {ppm} ppm", point, [.. before.Select(JournalReplay.Reading)]));
        var (limits, isOver) = (Limits(point), ReadingText.IsOver(ppm, Instrument.RangePpm));
        var level = limits.Judge(value, isOver);
        if (level != StopLevel.None) await StopNow(limits, value, isOver, level);
        else GoOnFrom(point);
        // Whether the hose is clear now rests on the reading; else nothing does that is not known without going through the journal again.
        if (clearing && level == StopLevel.None) Replay();
        Ask();
        return true;
    }

    /// <summary>Takes back what the line tells of, and goes back to where it was made.</summary>
    public async Task Undo()
    {
        if (LastKept is not { } kept) return;
        (LastKept, LastSaved) = (null, $"Taken back: {kept.What}. It stays in the journal as taken back.");
        // What counted before is there again before what took its place is gone.
        if (kept.Before is { Count: > 0 } before) await Note(JournalKinds.Reading, before);
        await Note(JournalKinds.Withdraw, kept.Entries.Select(id => new JsonObject { ["of"] = id, ["reason"] = "taken back at once" }));
        if (kept.At is { } at) GoTo(at);
    }

    /// <summary>Notes something of a point, which can be taken back at once.</summary>
    /// <param name="kind">One of <see cref="JournalKinds"/>.</param>
    /// <param name="body">What it tells.</param>
    /// <param name="told">What the line says, and what it calls it when it is taken back.</param>
    /// <param name="at">The point.</param>
    /// <param name="keep">Brings it to the disk together with something else; null for by itself.</param>
    internal async Task Note(string kind, JsonObject body, (string Line, string What) told, ProbePoint? at, Func<JournalEvent, Task>? keep = null)
    {
        var kept = await journal.Note(kind, body, keep ?? store.Add);
        Replay();
        Tell(told.Line, new KeptEntries([kept], told.What, at));
    }

    /// <summary>Notes one entry, which needs nothing else done.</summary>
    /// <returns>Its id.</returns>
    internal async Task<string> Note(string kind, JsonObject body)
    {
        var id = await journal.Note(kind, body);
        Replay();
        if (IsAnswered(kind)) Ask();
        return id;
    }

    /// <summary>Notes what needs nothing else done; see <see cref="SurveyNotes"/>.</summary>
    internal async Task Note(string kind, IEnumerable<JsonObject> bodies)
    {
        foreach (var body in bodies) await journal.Note(kind, body);
        Replay();
        if (IsAnswered(kind)) Ask();
    }

    private async Task StopNow(StopWork limits, double ppm, bool isOver, StopLevel level)
    {
        Browser.Cue("stop");
        var body = new JsonObject { ["gas"] = limits.Gas, ["ppm"] = ppm, ["level"] = level == StopLevel.Out ? "out" : "leave" };
        if (isOver) body["over"] = true;
        var stop = await journal.Note(JournalKinds.StopWork, body);
        if (LastKept is { } kept) LastKept = kept with { Entries = [.. kept.Entries, stop] };
        Replay();
    }

    // The answer rests on it.
    private static bool IsAnswered(string kind) => kind is JournalKinds.Reading or JournalKinds.Panel or JournalKinds.Withdraw;
}
