using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>A walk at steady pace along a front, from one mark to the other.</summary>
/// <param name="Event">Id of the event that began it, by which it can be withdrawn.</param>
/// <param name="Fixture">Fixture id.</param>
/// <param name="Air">Its air state.</param>
/// <param name="At">Where it began along the front, layout units.</param>
/// <param name="Since">When it began.</param>
/// <param name="Until">When it ended; null while it goes on.</param>
public sealed record MarkedWalk(string Event, string Fixture, AirState Air, double At, DateTimeOffset Since, DateTimeOffset? Until);

/// <summary>The marks that a device noted while its technician walked with a logging monitor, and the monitor's log put in place by them.</summary>
public static class JournalMarks
{
    /// <summary>Walks marked on a device, in time order. A walk begun anew before its end was noted is left out.</summary>
    /// <param name="state">The replay.</param>
    /// <param name="device">The device's id.</param>
    public static IReadOnlyList<MarkedWalk> Walks(JournalState state, string device)
    {
        var walks = new List<MarkedWalk>();
        foreach (var (start, end) in Pairs(state, device))
        {
            var air = KebabNames.Parse<AirState>(start.Body["air"].Text() ?? "") ?? AirState.FansOn;
            walks.Add(new MarkedWalk(start.Id, start.Body["fixture"].Text()!, air, At(start), start.Time, end?.Time));
        }

        return walks;
    }

    /// <summary>Fixtures whose front was walked from mark to mark, on any device; true where every device that walked it has read its log in.</summary>
    /// <param name="state">The replay.</param>
    public static IReadOnlyDictionary<string, bool> Walked(JournalState state)
    {
        var walked = new Dictionary<string, bool>();
        foreach (var device in state.Events.Where(e => e.Kind == JournalKinds.Mark).Select(e => e.Device).Distinct())
        {
            var read = FromLog(state, device).Select(e => e.Body["fixture"].Text()).ToHashSet();
            foreach (var walk in Walks(state, device).Where(w => w.Until is not null)) walked[walk.Fixture] = walked.GetValueOrDefault(walk.Fixture, true) && read.Contains(walk.Fixture);
        }

        return walked;
    }

    /// <summary>Readings of a device's log: the only ones of a front without a probe point.</summary>
    /// <param name="state">The replay.</param>
    /// <param name="device">The device's id.</param>
    public static IEnumerable<JournalEvent> FromLog(JournalState state, string device) =>
        state.Events.Where(e => e.Kind == JournalKinds.Reading && e.Device == device && e.Body["point"] is null && e.Body["fixture"] is not null);

    /// <summary>The marks of ended walks as a marks file, read with <see cref="MarksCsv"/>.</summary>
    /// <param name="state">The replay.</param>
    /// <param name="device">The device's id.</param>
    public static string Csv(JournalState state, string device)
    {
        var text = new StringBuilder("time,event,fixture,at,height,air\n");
        foreach (var (start, end) in Pairs(state, device).Where(p => p.End is not null))
        {
            foreach (var (mark, word) in new[] { (start, "start"), (end!, "end") })
            {
                var time = mark.Time.ToString("yyyy-MM-dd'T'HH:mm:ss.fffzzz", CultureInfo.InvariantCulture);
                text.Append(CultureInfo.InvariantCulture, $"{time},{word},{mark.Body["fixture"].Text()},{At(mark)},{mark.Body["height"].Text()},{mark.Body["air"].Text()}\n");
            }
        }

        return text.ToString();
    }

    /// <summary>Puts the monitor's log in place by the marks.</summary>
    /// <param name="state">The replay.</param>
    /// <param name="device">The device that marked the walks.</param>
    /// <param name="plan">The store's plan.</param>
    /// <param name="points">Its probe points.</param>
    /// <param name="log">The monitor's log: a CSV with time and ppm.</param>
    /// <param name="options">The monitor, and the log's columns.</param>
    /// <returns>One reading for each 0.3 m walked. Device and monitor have clocks of their own, so their difference is looked for in the log.</returns>
    /// <exception cref="RefusedInputException">Log and marks don't go together, or the log has errors; all of them are carried.</exception>
    public static AlignedLog Align(JournalState state, string device, Plan plan, IReadOnlyList<ProbePoint> points, Stream log, SurveyReadOptions options)
    {
        var read = LogCsv.Read(log, null, plan, options);
        using var csv = new MemoryStream(Encoding.UTF8.GetBytes(Csv(state, device)));
        var (marks, warnings) = MarksCsv.Read(csv, null, plan, points);
        var aligned = LogAligner.Align(plan, points, read, marks, new LogAlignOptions { EstimateClock = true });
        return aligned with { Warnings = [.. warnings, .. aligned.Warnings] };
    }

    private static double At(JournalEvent mark) => mark.Body["at"] is JsonValue at && at.TryGetValue(out double metres) ? metres : 0;

    private static IEnumerable<(JournalEvent Start, JournalEvent? End)> Pairs(JournalState state, string device)
    {
        JournalEvent? start = null;
        foreach (var e in state.Events.Where(e => e.Kind == JournalKinds.Mark && e.Device == device && e.Body["fixture"].Text() is not null))
        {
            if (e.Body["event"].Text() == "start")
            {
                start = e;
            }
            else if (start is not null)
            {
                yield return (start, e);
                start = null;
            }
        }

        if (start is not null) yield return (start, null);
    }
}
