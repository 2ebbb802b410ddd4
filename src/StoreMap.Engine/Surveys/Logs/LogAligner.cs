using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>Puts a continuous log back where the probe was: delay and lag undone first, then each mark gets the level of its dwell and
/// each walk at steady pace a reading every two feet. Method: docs/readings.md.</summary>
public static class LogAligner
{
    /// <summary>Makes a survey of a log and its marks.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="points">Its probe points, for the dwell asked of each.</param>
    /// <param name="log">The log of one monitor.</param>
    /// <param name="marks">Marks in time order.</param>
    /// <param name="settings">Null takes the defaults.</param>
    /// <returns>The survey, and warnings of the log and of dwells too short to read.</returns>
    /// <exception cref="RefusedInputException">No mark lies within the log's time.</exception>
    public static SurveyReadResult Align(
        Plan plan, IReadOnlyList<ProbePoint> points, ContinuousLog log, IReadOnlyList<LogMark> marks, LogSettings? settings = null)
    {
        settings ??= new LogSettings();
        var tip = TipLog.Of(log, settings);
        var dwell = points.ToDictionary(p => p.Id, p => p.DwellSeconds);
        var readings = new List<Reading>();
        var (outside, brief) = (new List<LogMark>(), new List<LogMark>());
        for (var i = 0; i < marks.Count; i++)
        {
            if (marks[i].Event == MarkEvent.Start)
            {
                var end = i;
                while (marks[end].Event != MarkEvent.End) end++;
                readings.AddRange(SteadyWalk.Readings(plan, tip, [.. marks.Skip(i).Take(end - i + 1)], settings));
                i = end;
                continue;
            }

            var asked = marks[i].Reading.Place.Point is { } id && dwell.TryGetValue(id, out var seconds) && seconds > 0 ? seconds : settings.DwellSeconds;
            var from = tip.SecondsAt(marks[i].Time);
            var to = Math.Min(from + asked, i + 1 < marks.Count ? tip.SecondsAt(marks[i + 1].Time) : double.PositiveInfinity);
            if (tip.Level(from + settings.ArriveSeconds, to) is not { } level)
            {
                outside.Add(marks[i]);
                continue;
            }

            var tooShort = to - from < settings.ArriveSeconds + (log.Instrument.T90Seconds / 2);
            if (tooShort) brief.Add(marks[i]);
            readings.Add(tip.Reading(marks[i].Reading, level, tooShort ? "too short a dwell" : null));
        }

        var warnings = log.Warnings.ToList();
        Warn(outside, "mark-outside-log", "lie outside the log and were left out. Check the clocks of log and marks.");
        Warn(brief, "dwell-short", "were held too short for the monitor to follow; their readings are uncertain. Hold the probe longer there.");
        if (readings.Count == 0)
        {
            throw new RefusedInputException([new Problem(Severity.Error, null, null, "time", null, "log-no-overlap",
                "No mark lies within the time of the log. Check that log and marks are of the same visit and on the same clock.")]);
        }

        return new SurveyReadResult(
            new Survey
            {
                Store = plan.Id, LayoutRevision = plan.Revision, Start = readings.Min(r => r.Time), Instruments = [log.Instrument],
                Readings = [.. readings.OrderBy(r => r.Time)],
            },
            warnings);

        void Warn(List<LogMark> which, string rule, string message)
        {
            if (which.Count == 0) return;
            var names = string.Join(", ", which.Take(5).Select(m => m.Element)) + (which.Count > 5 ? ", …" : "");
            warnings.Add(new Problem(Severity.Warning, null, which[0].Element, "time", null, rule,
                FormattableString.Invariant($"{which.Count} {(which.Count == 1 ? "mark" : "marks")} ({names}) {message}")));
        }
    }
}
