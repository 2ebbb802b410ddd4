using StoreMap.Plans;

namespace StoreMap.Surveys;

/// <summary>One walk at steady pace between its marks, pauses left out: where the tip was at each moment.</summary>
internal sealed class Walk
{
    private readonly WalkLeg[] legs;

    // Clock and walked distance at the marks and at both ends of each pause, ascending in time.
    private readonly double[] seconds;
    private readonly double[] metres;
    private readonly double[] legStarts;

    /// <summary>Makes a walk.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="marks">From the start to the end; pauses resumed.</param>
    /// <param name="clock">Gives seconds of a mark.</param>
    public Walk(Plan plan, IReadOnlyList<LogMark> marks, Func<LogMark, double> clock)
    {
        Start = marks[0];
        var moving = MovingClock(marks, clock);
        var placed = Enumerable.Range(0, marks.Count).Where(i => marks[i].HasPlace).ToArray();
        legs = new WalkLeg[placed.Length - 1];
        legStarts = new double[placed.Length];
        for (var k = 0; k < legs.Length; k++)
        {
            legs[k] = new WalkLeg(plan, marks[placed[k]].Reading.Place, marks[placed[k + 1]].Reading.Place);
            legStarts[k + 1] = legStarts[k] + legs[k].Length;
        }

        seconds = [.. marks.Select(clock)];
        metres = new double[marks.Count];
        for (var k = 0; k < legs.Length; k++)
        {
            var (a, b) = (placed[k], placed[k + 1]);
            for (var i = a; i <= b; i++)
            {
                var share = moving[b] > moving[a] ? (moving[i] - moving[a]) / (moving[b] - moving[a]) : 0;
                metres[i] = legStarts[k] + (share * legs[k].Length);
            }
        }
    }

    /// <summary>The mark that began it.</summary>
    public LogMark Start { get; }

    /// <summary>First and last second on the log's clock.</summary>
    public (double From, double To) Span => (seconds[0], seconds[^1]);

    /// <summary>Metres walked in all.</summary>
    public double Length => legStarts[^1];

    /// <summary>Metres walked up to a moment within the span.</summary>
    public double DistanceAt(double at)
    {
        var i = Array.BinarySearch(seconds, at);
        if (i >= 0) return metres[i];
        i = Math.Clamp(~i, 1, seconds.Length - 1);
        var share = seconds[i] > seconds[i - 1] ? (at - seconds[i - 1]) / (seconds[i] - seconds[i - 1]) : 0;
        return metres[i - 1] + (Math.Clamp(share, 0, 1) * (metres[i] - metres[i - 1]));
    }

    /// <summary>The place at a walked distance.</summary>
    public ReadingPlace PlaceAt(double distance)
    {
        var k = 0;
        while (k + 1 < legs.Length && legStarts[k + 1] <= distance) k++;
        return legs[k].PlaceAt(distance - legStarts[k]);
    }

    private static double[] MovingClock(IReadOnlyList<LogMark> marks, Func<LogMark, double> clock)
    {
        var moving = new double[marks.Count];
        for (var i = 1; i < marks.Count; i++)
        {
            var still = marks[i - 1].Event == MarkEvent.Pause;
            moving[i] = moving[i - 1] + (still ? 0 : clock(marks[i]) - clock(marks[i - 1]));
        }

        return moving;
    }
}
