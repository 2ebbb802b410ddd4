using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Web.Shared;

namespace StoreMap.Web.Surveying;

/// <summary>What is being typed from a walk sheet: times, and what was refused, by probe point. It outlives the screen it is typed on.</summary>
public sealed class PaperRows
{
    private readonly Dictionary<string, TimeOnly> times = [];

    /// <summary>The day of the readings, of the store's calendar.</summary>
    public DateOnly? Day { get; set; }

    /// <summary>Times as typed that are none.</summary>
    public Dictionary<string, string> WrongTimes { get; } = [];

    /// <summary>Readings as typed that are none.</summary>
    public Dictionary<string, string> WrongReadings { get; } = [];

    /// <summary>The time at a point as it is shown.</summary>
    public string? TimeAt(string point) => WrongTimes.GetValueOrDefault(point) ?? (times.TryGetValue(point, out var time) ? time.ToString("H:mm", CultureInfo.InvariantCulture) : null);

    /// <summary>Takes a time in; nothing takes it out.</summary>
    /// <param name="point">The probe point.</param>
    /// <param name="text">As typed.</param>
    /// <param name="now">By the store's clock.</param>
    public void SetTime(string point, string text, DateTime now)
    {
        WrongTimes.Remove(point);
        times.Remove(point);
        if (text.Length == 0) return;
        if (Time(text) is { } time && Day?.ToDateTime(time) <= now) times[point] = time;
        else WrongTimes[point] = text;
    }

    /// <summary>Keeps a reading from paper in place of what this device kept at the point before; nothing typed takes that back.</summary>
    /// <param name="session">The survey.</param>
    /// <param name="n">Place of the point in its order.</param>
    /// <param name="text">As typed.</param>
    /// <returns>What to say of it.</returns>
    public async Task<string> Keep(SurveySession session, int n, string text)
    {
        var point = session.Points[n];
        text = TypedNumber.WithPoint(text);
        if (text.Length > 0 && !ReadingText.IsReading(text, session.Instrument.RangePpm))
        {
            WrongReadings[point.Id] = text;
            return Say.Sentence($"{Stop(session, n)}: {NoReading(session, text)}");
        }

        if (text.Length > 0 && WaitsFor(session, n) is { } wrong)
        {
            WrongReadings[point.Id] = text;
            return Say.Sentence($"{Stop(session, n)}: {NoReading(session, text)} See {Stop(session, wrong)}.");
        }

        WrongReadings.Remove(point.Id);
        var title = Say.Title(session.Plan, point);
        if (text.Length == 0)
        {
            await TakeBack(session, session.State.Events.Where(e => e.Kind == JournalKinds.Reading && e.Device == session.Device && (string?)e.Body["point"] == point.Id));
            return $"{title}: taken back";
        }

        var body = ReadingText.Body(session.Plan, point, text, point.Height, AirState.FansOn, "", session.Gas(point));
        var before = session.Like(body);
        // Without offset, so the store's own time.
        if (Read(session, n) is { } at) body["time"] = at.ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);
        else if (before is [.., { } put]) body["time"] = JournalReplay.Reading(put)["time"]!.DeepClone();
        await session.Note(JournalKinds.Reading, body);
        await TakeBack(session, before);
        return $"{title}: {text} ppm kept on this device{(session.AfterStop(point) is { } asks ? $". {asks}" : "")}";
    }

    /// <summary>The number that a point has on the printed sheet; null for one that was added on the floor.</summary>
    public static int? Number(SurveySession session, int n) => IsAdded(session.Points[n]) ? null : session.Points.Take(n + 1).Count(p => !IsAdded(p));

    /// <summary>A row as it is spoken of.</summary>
    public static string Stop(SurveySession session, int n) => Number(session, n) is { } number ? FormattableString.Invariant($"stop {number}") : session.Points[n].Id;

    private static bool IsAdded(ProbePoint point) => point.Pass == ProbePass.CloseIn;

    /// <summary>Readings typed at and below a row that waited for its time, until the next time.</summary>
    public IEnumerable<(int Row, string Text)> Waiting(SurveySession session, int n)
    {
        for (var row = n; row < session.Points.Count && (row == n || !HasTime(session.Points[row].Id)); row++)
        {
            if (WrongReadings.TryGetValue(session.Points[row].Id, out var text) && ReadingText.IsReading(text, session.Instrument.RangePpm)) yield return (row, text);
        }
    }

    // The row whose time counts for this one, when that is none.
    private int? WaitsFor(SurveySession session, int n)
    {
        while (n > 0 && !HasTime(session.Points[n].Id)) n--;
        return WrongTimes.ContainsKey(session.Points[n].Id) ? n : null;
    }

    private bool HasTime(string point) => times.ContainsKey(point) || WrongTimes.ContainsKey(point);

    /// <summary>What is wrong with a reading as typed.</summary>
    public static string NoReading(SurveySession session, string text)
    {
        var range = session.Instrument.RangePpm;
        if (ReadingText.IsReading(text, range)) return $"{text} waits until the time is put right.";
        if (ReadingText.IsReading(text)) return $"{ReadingText.Missing(text, range)}. Write {ReadingText.Over(range)} where it was over its range.";
        return text.Contains(',', StringComparison.Ordinal) ? $"{text} may be a decimal comma or thousands. Write 1200 or 1.2."
            : $"{text} is no reading. Allowed: a number such as 12 or 0.5, <1 below the limit, {ReadingText.Over(range)} over the range.";
    }

    /// <summary>What is wrong with a time as typed.</summary>
    public static string NoTime(string text) => Time(text) is null ? $"{text} is no time. Allowed: 5:40, 17:05." : $"{text} is still to come on the day above, by the store's clock.";

    // 540 is written for 5:40 too.
    private static TimeOnly? Time(string text) => TimeOnly.TryParseExact(
        text.Length is 3 or 4 && text.All(char.IsAsciiDigit) ? $"{text[..^2]}:{text[^2..]}" : text, ["H:mm", "HH:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : null;

    private static async Task TakeBack(SurveySession session, IEnumerable<JournalEvent> readings)
    {
        var bodies = readings.Select(e => new JsonObject { ["of"] = e.Id, ["reason"] = "corrected from paper" }).ToList();
        if (bodies.Count > 0) await session.Note(JournalKinds.Withdraw, bodies);
    }

    // The last time given at or above the row.
    private DateTime? Read(SurveySession session, int n)
    {
        for (; n >= 0; n--)
        {
            if (times.TryGetValue(session.Points[n].Id, out var time)) return Day!.Value.ToDateTime(time);
        }

        return null;
    }
}
