using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>The probe held at one place.</summary>
/// <param name="Mark">The mark that says so.</param>
/// <param name="From">Seconds on the log's clock.</param>
/// <param name="To">Seconds on the log's clock, at least <paramref name="From"/>.</param>
/// <param name="Open">True when no later mark shows how long it was held.</param>
internal sealed record Stay(LogMark Mark, double From, double To, bool Open);

/// <summary>Where the tip was during a log: walks and stays, seconds on the log's clock.</summary>
internal sealed class ProbePath
{
    private ProbePath(List<Walk> walks, List<Stay> stays) => (Walks, Stays) = (walks, stays);

    /// <summary>In time order.</summary>
    public IReadOnlyList<Walk> Walks { get; }

    /// <summary>In time order.</summary>
    public IReadOnlyList<Stay> Stays { get; }

    /// <summary>Reads the path from marks in time order.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="marks">Marks whose starts, pauses and ends follow one another.</param>
    /// <param name="clock">Gives the seconds of a mark on the log's clock.</param>
    /// <param name="dwell">How long the probe is held at a stay at most, seconds.</param>
    public static ProbePath Of(Plan plan, IReadOnlyList<LogMark> marks, Func<LogMark, double> clock, Func<LogMark, double> dwell)
    {
        var walks = new List<Walk>();
        var stays = new List<Stay>();
        for (var i = 0; i < marks.Count; i++)
        {
            if (marks[i].Event == MarkEvent.Start)
            {
                var end = i;
                while (marks[end].Event != MarkEvent.End) end++;
                walks.Add(new Walk(plan, [.. marks.Skip(i).Take(end - i + 1)], clock));
                i = end;
                continue;
            }

            var from = clock(marks[i]);
            var next = i + 1 < marks.Count ? clock(marks[i + 1]) : double.PositiveInfinity;
            var most = from + dwell(marks[i]);
            stays.Add(new Stay(marks[i], from, Math.Min(next, most), double.IsPositiveInfinity(next)));
        }

        return new ProbePath(walks, stays);
    }

    /// <summary>The place of the tip at a moment and the metres walked on the same walk until a later moment; null between walks and stays.</summary>
    public (ReadingPlace Place, double Walked)? At(double seconds, double until)
    {
        foreach (var walk in Walks)
        {
            if (seconds < walk.Span.From || seconds > walk.Span.To) continue;
            var distance = walk.DistanceAt(seconds);
            return (walk.PlaceAt(distance), walk.DistanceAt(Math.Min(until, walk.Span.To)) - distance);
        }

        foreach (var stay in Stays)
        {
            if (seconds >= stay.From && seconds <= stay.To) return (stay.Mark.Reading.Place, 0);
        }

        return null;
    }
}
