using System.Globalization;
using System.Text;
using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>A noted reading and the truth behind it.</summary>
/// <param name="Place">Where.</param>
/// <param name="Air">Air state noted.</param>
/// <param name="Second">Second of the visit.</param>
/// <param name="Shown">What the display said.</param>
/// <param name="SinceSeconds">Seconds since the fans stopped; null with fans on.</param>
/// <param name="GasPpm">ppm from leaks at the tip, mean of the hold, without flicker or sensor.</param>
/// <param name="HoldSeconds">Seconds for which the tip was held there, up to <paramref name="Second"/>; 0 when it was moved.</param>
public sealed record NotedReading(ProbePlace Place, AirState Air, int Second, string Shown, int? SinceSeconds, double GasPpm, int HoldSeconds)
{
    /// <summary>The display as a number; the limit when over range.</summary>
    public double Ppm => double.Parse(Shown.TrimStart('>'), CultureInfo.InvariantCulture);
}

/// <summary>Walks a simulated store with a monitor and notes what it shows; time passes as the technician works.</summary>
public sealed class Surveyor
{
    internal const int SettleSeconds = 700;
    private const double WalkSpeed = 0.8;
    private const double HandMetres = 0.05;

    private static readonly DateTime Start = new(2026, 3, 10, 6, 0, 0, DateTimeKind.Unspecified);

    private readonly SimulatedStore store;
    private readonly StoreAir air;
    private readonly SeededNoise hand;
    private readonly List<(int Second, double Ppm)> log = [];
    private readonly Dictionary<string, int> stoppedAt = [];
    private double flicker;
    private double gap;
    private int second;
    private PlanPoint at;
    private double sensor;

    /// <summary>Enters a store whose leaks have run for a while.</summary>
    /// <param name="store">The store.</param>
    /// <param name="only">Only this leak gives gas, all else being equal; null for all.</param>
    public Surveyor(SimulatedStore store, StoreLeak? only = null)
    {
        this.store = store;
        air = new StoreAir(store, only is null ? store.Leaks : [only]);
        var noise = new SeededNoise(store.Seed).Fork(6);
        Monitor = new HandMonitor(noise.Fork(1));
        hand = noise.Fork(2);
        at = store.Plan.Entrances[0].At;
        for (var i = 0; i < SettleSeconds; i++) air.Step();
    }

    /// <summary>The monitor.</summary>
    public HandMonitor Monitor { get; }

    /// <summary>What was noted, in time order.</summary>
    public List<NotedReading> Noted { get; } = [];

    /// <summary>Fixtures whose fans were stopped, and at which second.</summary>
    public IReadOnlyDictionary<string, int> StoppedAt => stoppedAt;

    /// <summary>Seconds since the visit's start.</summary>
    public int Second => second;

    /// <summary>Walks to a place, holds the tip there until the number has settled, and notes it.</summary>
    public NotedReading Probe(ProbePlace place)
    {
        WalkTo(place.Stand);
        var slip = HandMetres * hand.Normal();
        var seconds = (int)Math.Ceiling(Monitor.SettleSeconds + 1);
        var gas = 0.0;
        for (var i = 0; i < seconds; i++)
        {
            var now = air.Gas(place, slip);
            gas += now / seconds;
            Tick((now * Flicker(place)) + air.Level(place.At));
        }

        int? since = place.Fixture is { } fixture && stoppedAt.TryGetValue(fixture, out var stopped) ? second - stopped : null;
        var noted = new NotedReading(place, since is null ? AirState.FansOn : AirState.FansOff, second, Monitor.Display(sensor), since, gas, seconds);
        Noted.Add(noted);
        return noted;
    }

    /// <summary>Moves the tip along places, three seconds each, and notes the highest number where the tip was when that gas was drawn in.</summary>
    public NotedReading Sweep(IReadOnlyList<ProbePlace> places)
    {
        const int each = 3;
        WalkTo(places[0].Stand);
        var (best, bestAt, gas) = (double.NegativeInfinity, 0, 0.0);
        var late = (int)Math.Ceiling(Monitor.SettleSeconds / 2);
        var last = (places.Count * each) - 1;
        for (var i = 0; i <= last + late; i++)
        {
            var place = places[Math.Min(i, last) / each];
            at = place.Stand;
            var now = air.Gas(place, 0);
            Tick((now * Flicker(place)) + air.Level(place.At));
            if (i < late || sensor <= best) continue;
            (best, bestAt, gas) = (sensor, (i - late) / each, now);
        }

        var noted = new NotedReading(places[bestAt], AirState.FansOn, second, Monitor.Display(best), null, gas, 0);
        Noted.Add(noted);
        return noted;
    }

    /// <summary>Has a fixture's fans stopped.</summary>
    public void StopFans(string fixture)
    {
        air.SetFans(fixture, stop: true);
        stoppedAt[fixture] = second;
    }

    /// <summary>Stands where they are and lets time pass.</summary>
    public void Wait(int seconds)
    {
        for (var i = 0; i < seconds; i++) Tick(air.Carried(at) + air.Level(at));
    }

    /// <summary>Carries the tip along a fixture's front at a steady pace, the monitor logging each second.</summary>
    /// <param name="fixture">Fixture with a front.</param>
    /// <param name="from">Metres along the front.</param>
    /// <param name="to">Metres along the front.</param>
    /// <param name="metresPerSecond">Pace.</param>
    /// <returns>First and last second of the walk.</returns>
    public (int From, int To) WalkAlong(Fixture fixture, double from, double to, double metresPerSecond)
    {
        WalkTo(ProbePlace.On(fixture, from, null).Stand);
        Wait(2);
        var begin = second;
        // Nobody keeps the pace quite evenly.
        var seconds = (int)Math.Ceiling(Math.Abs(to - from) / metresPerSecond);
        var sway = 0.0;
        for (var i = 0; i <= seconds; i++)
        {
            sway = (0.9 * sway) + (0.03 * hand.Normal());
            var place = ProbePlace.On(fixture, Math.Clamp(from + ((to - from) * i / seconds) + sway, 0, fixture.Front!.Length), null);
            at = place.Stand;
            Tick((air.Gas(place, 0) * Flicker(place)) + air.Level(place.At));
        }

        return (begin, second - 1);
    }

    /// <summary>The visit's readings as a file, in the layout's units.</summary>
    public string ReadingsCsv()
    {
        var unit = store.Plan.Units.InMetres();
        var text = new StringBuilder("time,ppm,fixture,at,side,x,y,height,spot,air,since\n");
        foreach (var r in Noted)
        {
            var p = r.Place;
            var front = p.Fixture is not null && store.Plan.FindFixture(p.Fixture)!.Front is not null;
            text.Append(Time(r.Second)).Append(',').Append(r.Shown).Append(',').Append(p.Fixture).Append(',')
                .Append(front ? Number(p.Along / unit) : "").Append(',').Append(p.OnBack ? "back" : "").Append(',')
                .Append(front ? "" : Number(p.At.X / unit)).Append(',').Append(front ? "" : Number(p.At.Y / unit)).Append(',')
                .Append(p.Height?.Kebab()).Append(',').Append(p.Spot?.Kebab()).Append(',').Append(r.Air.Kebab()).Append(',')
                .Append(r.SinceSeconds?.ToString(CultureInfo.InvariantCulture)).Append('\n');
        }

        return text.ToString();
    }

    /// <summary>The monitor's log as a file, a row a second.</summary>
    public string LogCsv()
    {
        var text = new StringBuilder("time,ppm\n");
        foreach (var (when, ppm) in log) text.Append(Time(when)).Append(',').Append(Monitor.Display(ppm)).Append('\n');
        return text.ToString();
    }

    /// <summary>A second of the visit as written in files: local time without offset.</summary>
    public static string Time(int second) => Start.AddSeconds(second).ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture);

    private static string Number(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    private void WalkTo(PlanPoint to)
    {
        var from = at;
        var seconds = 2 + (int)Math.Ceiling(from.DistanceTo(to) / WalkSpeed);
        for (var i = 1; i <= seconds; i++)
        {
            at = from + ((to - from) * ((double)i / seconds));
            Tick(air.Carried(at) + air.Level(at));
        }
    }

    private void Tick(double tip)
    {
        air.Step();
        sensor = Monitor.Draw(tip);
        log.Add((second, sensor));
        second++;
    }

    // Turbulence at the tip: correlated over some seconds, with gaps of clear air in a rough store.
    private double Flicker(ProbePlace place)
    {
        const double keep = 0.78;
        var deviation = air.Nature.Flicker * (place.Fixture is { } f && stoppedAt.ContainsKey(f) ? 0.6 : 1);
        flicker = (keep * flicker) + (Math.Sqrt(1 - (keep * keep)) * hand.Normal());
        gap = hand.Chance(air.Nature.GapChance) ? 4 : Math.Max(0, gap - 1);
        return Math.Exp((deviation * flicker) - (deviation * deviation / 2)) * (gap > 0 ? 0.4 : 1);
    }
}
