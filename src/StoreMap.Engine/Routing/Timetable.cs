using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>How the time passes along an order of points: waits where a place may not be entered yet, and walks left for defrosts that stop the
/// fans. What it gives is in minutes after the begin and in places of the order.</summary>
internal sealed class Timetable
{
    private readonly TimedStore store;
    private readonly TimedCourse course;
    private readonly double[] within;
    private readonly double[] wait;
    private readonly double[] late;
    private readonly bool[] outside;
    private readonly double[] detour;
    private readonly double[] spent;

    private Timetable(TimedStore store, TimedCourse course)
    {
        (this.store, this.course) = (store, course);
        var count = course.At.Length;
        (Read, Starts, Standing) = (new double[count], new bool[count], [.. course.At]);
        (within, wait, late, outside, detour, spent) = (new double[count], new double[count], new double[count], new bool[count], new double[count], new double[count]);
        for (var i = count - 1; i >= 0; i--)
        {
            Starts[i] = i == 0 || GroupAt(i) != GroupAt(i - 1);
            within[i] = course.Inside[i] + (i + 1 < count && !Starts[i + 1] ? course.Step[i + 1] - course.Inside[i + 1] + within[i + 1] : 0);
        }

        Pass(0);
        Defrosts = DefrostChecks.Fit(this);
    }

    /// <summary>The points, their hours and circuits.</summary>
    public TimedStore Store => store;

    /// <summary>Index of each point, in walking order.</summary>
    public int[] At => course.At;

    /// <summary>When each point has been read.</summary>
    public double[] Read { get; }

    /// <summary>True where a group begins.</summary>
    public bool[] Starts { get; }

    /// <summary>Index of the point where one stands when the walk is gone on with after each place: the place itself, or the last of a check
    /// for which the walk was left there.</summary>
    public int[] Standing { get; }

    /// <summary>Defrosts that stop fans during the walk, by start.</summary>
    public IReadOnlyList<DefrostMet> Defrosts { get; }

    /// <summary>When the walk is over, the way back included.</summary>
    public double End => Read.Length == 0 ? 0 : Read[^1] + course.Back;

    /// <summary>Minutes that the time of day costs: waits, detours, what missing a defrost weighs, and the longest wait for each group walked
    /// outside its hours.</summary>
    public double Excess => wait.Sum() + detour.Sum() + (store.Protocol.MostWaitMinutes * outside.Count(o => o)) + Defrosts.Sum(d => d.Weight);

    /// <summary>Minutes by which groups are done after their hours, all added up: what a search may lessen step by step.</summary>
    public double Late => late.Sum();

    /// <summary>Times an order.</summary>
    /// <param name="store">The points.</param>
    /// <param name="course">The order.</param>
    public static Timetable Of(TimedStore store, TimedCourse course) => new(store, course);

    /// <summary>When one can leave after a place, the checks made there done.</summary>
    public double Leave(int place) => Read[place] + spent[place];

    /// <summary>When one arrives at a place, before any wait.</summary>
    public double Arrive(int place) => Read[place] - course.Inside[place] - wait[place];

    /// <summary>Minutes waited before a place.</summary>
    public double Wait(int place) => wait[place];

    /// <summary>True when the group that begins at a place is walked outside its hours.</summary>
    public bool IsOutside(int place) => outside[place];

    /// <summary>True when a stretch of time at a point lies in its hours.</summary>
    public bool IsOpen(int point, double from, double to) => store.Hours[point] is not { } hours || Array.Exists(hours, h => h.From <= from && to <= h.To);

    /// <summary>Leaves the walk after a place.</summary>
    /// <param name="place">After which place in the order.</param>
    /// <param name="last">Index of the point where the check ends.</param>
    /// <param name="minutes">How much later the next place is reached.</param>
    public void Detour(int place, int last, double minutes)
    {
        var next = course.At[place + 1];
        spent[place] += minutes + store.Minutes(Standing[place], next) - store.Minutes(last, next);
        detour[place] += minutes;
        Standing[place] = last;
        Pass(place + 1);
    }

    private int GroupAt(int place) => store.GroupOf[course.At[place]];

    private void Pass(int from)
    {
        for (var i = from; i < Read.Length; i++)
        {
            var before = i == 0 ? store.Protocol.SignInMinutes + store.Protocol.WarmUpMinutes : Read[i - 1] + detour[i - 1];
            (wait[i], late[i], outside[i]) = Starts[i] && store.Hours[course.At[i]] is { } hours ? Enter(hours, before + course.Step[i] - course.Inside[i], within[i]) : (0, 0, false);
            Read[i] = before + wait[i] + course.Step[i];
        }
    }

    /// <summary>How long to wait until a group fits into its hours; when that is too long, how late it is. To be early counts for nothing, or
    /// dawdling would pay.</summary>
    private (double Wait, double Late, bool Outside) Enter((double From, double To)[] hours, double arrive, double minutes)
    {
        var late = 0.0;
        foreach (var (open, shut) in hours)
        {
            var begin = Math.Max(open, arrive);
            if (begin + minutes <= shut && begin - arrive <= store.Protocol.MostWaitMinutes) return (begin - arrive, 0, false);
            if (shut > 0 && open <= arrive && late == 0) late = arrive + minutes - shut;
        }

        return (0, late, true);
    }
}
