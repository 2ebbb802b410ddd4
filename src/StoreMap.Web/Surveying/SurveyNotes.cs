using System.Text.Json;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Web.Shared;
using StoreMap.Web.Solving;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Surveying;

/// <summary>Things noted in a survey's journal beside its readings.</summary>
internal static class SurveyNotes
{
    public static Task LeaveOff(this SurveySession session, string what, string? fixture) =>
        session.Note(JournalKinds.LeftOff, new JsonObject { ["what"] = what, ["fixture"] = fixture });

    public static Task Restored(this SurveySession session, LeftOffItem item) => session.Note(JournalKinds.Restored, new JsonObject { ["item"] = item.Id });

    public static Task HandOver(this SurveySession session, LeftOffItem item, string to) =>
        session.Note(JournalKinds.HandedOver, new JsonObject { ["item"] = item.Id, ["to"] = to });

    public static Task Close(this SurveySession session) => session.Note(JournalKinds.Close, new JsonObject());

    /// <summary>Takes the end of the visit back.</summary>
    public static Task GoOn(this SurveySession session) => session.Note(
        JournalKinds.Withdraw, session.State.Events.Where(e => e.Kind == JournalKinds.Close).Select(e => new JsonObject { ["of"] = e.Id, ["reason"] = "the visit goes on" }).ToList());

    public static Task Begin(this SurveySession session, string technician, Instrument instrument) => session.Note(JournalKinds.Start, new JsonObject
    {
        ["technician"] = technician,
        ["instrument"] = new JsonObject
        {
            ["id"] = instrument.Id, ["kind"] = instrument.Kind.Kebab(), ["delay"] = instrument.DelaySeconds, ["t90"] = instrument.T90Seconds,
            ["resolution"] = instrument.ResolutionPpm, ["detectionLimit"] = instrument.DetectionPpm, ["range"] = instrument.RangePpm,
        },
    });

    /// <summary>Notes up to where the monitor shows, where that was given otherwise before.</summary>
    public static async Task ShowsUpTo(this SurveySession session, double ppm)
    {
        if (session.State.Events.LastOrDefault(e => e.Kind == JournalKinds.Start)?.Body.DeepClone() is not JsonObject start || start["instrument"] is not JsonObject monitor) return;
        monitor["range"] = ppm;
        await session.Note(JournalKinds.Start, start);
        session.Tell($"Noted: the monitor shows up to {Say.Ppm(ppm)} ppm");
    }

    /// <summary>Answers a stop: everyone is out and the place is aired.</summary>
    public static async Task WorkGoesOn(this SurveySession session)
    {
        await session.Note(JournalKinds.StopAnswered, new JsonObject());
        session.GoOnFrom(session.Current);
    }

    /// <summary>Notes what was found behind a panel; see <see cref="PanelNote"/>.</summary>
    public static Task Lifted(this SurveySession session, JsonObject look) => session.Note(JournalKinds.Panel, look);

    /// <summary>Takes back what was noted of a panel.</summary>
    public static Task NotLifted(this SurveySession session, string of) => session.Note(JournalKinds.Withdraw, new JsonObject { ["of"] = of, ["reason"] = "taken back" });

    /// <summary>Notes that the technician went into a walk-in. Who goes into one has left the other, and that is noted after it: should the
    /// page go in between, a clock runs too many rather than none.</summary>
    public static async Task GoIn(this SurveySession session, string fixture)
    {
        string Tag(string id) => session.Plan.FindFixture(id)?.Tag ?? id;
        List<string> left = [.. session.State.InsideBy(session.Device).Where(f => f != fixture)];
        await session.Note(JournalKinds.CheckIn, [new JsonObject { ["fixture"] = fixture, ["in"] = true }, .. left.Select(f => new JsonObject { ["fixture"] = f, ["in"] = false })]);
        if (left.Count > 0) session.Tell($"Noted: out of {string.Join(", ", left.Select(Tag))}, into {Tag(fixture)}");
    }

    /// <summary>Notes that somebody came out of a walk-in.</summary>
    public static Task ComeOut(this SurveySession session, InsideWalkIn inside)
    {
        var body = new JsonObject { ["fixture"] = inside.Fixture, ["in"] = false };
        if (inside.Device != session.Device) body["who"] = inside.Device;
        return session.Note(JournalKinds.CheckIn, body);
    }

    /// <summary>Notes what goes on in a room, or that it ended.</summary>
    public static Task Activity(this SurveySession session, string? room, string what, bool on) =>
        session.Note(JournalKinds.Activity, new JsonObject { ["room"] = room, ["what"] = what, ["on"] = on });

    /// <summary>The walk that goes on now; null when none does.</summary>
    public static MarkedWalk? Walk(this SurveySession session) => session.Walks.Count > 0 && session.Walks[^1] is { Until: null } walk ? walk : null;

    /// <summary>The first mark begins a walk at the nearer end of the current line-up, the second ends it at the other end.</summary>
    public static async Task MarkWalk(this SurveySession session)
    {
        var walk = session.Walk();
        var fixture = session.Plan.FindFixture(walk?.Fixture ?? session.Current?.Fixture);
        if (fixture?.Front is not { } front || (walk is null && session.Current?.Along is null)) return;
        var atEnd = walk is not null ? walk.At == 0 : session.Current!.Along > front.Length / 2;
        var here = session.Current;
        var mark = await session.Note(JournalKinds.Mark, new JsonObject
        {
            ["event"] = walk is null ? "start" : "end", ["fixture"] = fixture.Id, ["at"] = atEnd ? Math.Round(session.Plan.Units.FromMetres(front.Length), 4) : 0,
            ["height"] = session.Height.Kebab(), ["air"] = (walk?.Air ?? session.Air).Kebab(),
        });
        Browser.Cue("saved");
        if (walk is not null) session.GoOnFrom(session.Current);
        session.Tell(
            walk is null ? $"{fixture.Tag}: walk begun, noted on this device" : $"{fixture.Tag}: walked, noted on this device",
            new KeptEntries(walk is null ? [mark] : [walk.Event, mark], $"the walk of {fixture.Tag}", here));
    }

    /// <summary>True while a walk can be taken back: what the visit's end or the log has made of it stays.</summary>
    public static bool CanBeTakenBack(this SurveySession session, MarkedWalk walk) => !session.State.Closed && !session.HasLogOf(walk);

    /// <summary>Takes a walk back that was begun or ended by mistake.</summary>
    public static Task NotWalked(this SurveySession session, MarkedWalk walk) =>
        session.Note(JournalKinds.Withdraw, new JsonObject { ["of"] = walk.Event, ["reason"] = "not walked" });

    /// <summary>Takes a photo back; like a reading taken back it stays in the journal and is not shown.</summary>
    public static Task NotThisPhoto(this SurveySession session, string of) => session.Note(JournalKinds.Withdraw, new JsonObject { ["of"] = of, ["reason"] = "photo taken back" });

    /// <summary>True when the log of a walk was read in.</summary>
    public static bool HasLogOf(this SurveySession session, MarkedWalk walk) => session.FromLog().Any(e => (string?)e.Body["fixture"] == walk.Fixture);

    /// <summary>Puts the monitor's log in place by the marks and keeps its readings, in place of what was made of a log before: other marks
    /// may have shown another lag.</summary>
    /// <param name="session">The survey.</param>
    /// <param name="csv">The log.</param>
    /// <returns>True when its readings differ from those kept, and what was odd or wrong.</returns>
    public static async Task<(bool Differs, LogTaken Taken)> AddLog(this SurveySession session, string csv)
    {
        var (layout, _, survey) = await session.Input();
        var taken = JsonSerializer.Deserialize(await EngineRoom.Floor("EngineWork.TakeLog", layout, survey, session.Device, csv), AnswerJson.Default.LogTaken)!;
        if (taken.Readings.Count == 0) return (false, taken);
        var before = session.FromLog().ToList();
        if (before.Select(e => e.Body.ToJsonString()).Order(StringComparer.Ordinal).SequenceEqual(taken.Readings.Order(StringComparer.Ordinal))) return (false, taken);
        await session.Note(JournalKinds.Withdraw, before.Select(e => new JsonObject { ["of"] = e.Id, ["reason"] = "log read in again" }));
        List<JsonObject> readings = [.. taken.Readings.Select(r => JsonNode.Parse(r)!.AsObject())];
        await session.Note(JournalKinds.Reading, readings);
        return (true, taken with { Said = [.. readings.GroupBy(r => (string?)r["fixture"]).Select(g => Stop(session, g.Key, g)).OfType<string>(), .. taken.Said] });
    }

    // The highest reading of a line-up that asks for more than reading on.
    private static string? Stop(SurveySession session, string? fixture, IEnumerable<JsonObject> readings)
    {
        if (session.Plan.FindFixture(fixture) is not { } walked) return null;
        List<string> shown = [.. readings.Select(r => (string)r["ppm"]!)];
        var ppm = shown.Max(ReadingText.Number);
        return Say.AfterStop(StopWork.At(session.Plan, walked.Id), ppm, shown.Exists(s => ReadingText.IsOver(s, session.Instrument.RangePpm))) is { } asks
            ? $"{walked.Tag}: up to {Say.Ppm(ppm)} ppm. {asks}." : null;
    }

    /// <summary>What the reading at a point asks for that was entered later than it was taken; null when it asks for nothing.</summary>
    public static string? AfterStop(this SurveySession session, ProbePoint point) => session.Shown(point.Id) is { } shown && ReadingText.IsReading(shown)
        ? Say.AfterStop(session.Limits(point), ReadingText.Number(shown), ReadingText.IsOver(shown, session.Instrument.RangePpm)) : null;

    private static IEnumerable<JournalEvent> FromLog(this SurveySession session) => JournalMarks.FromLog(session.State, session.Device);
}
