using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Zones.Forward;

/// <summary>Makes the readings of a visit: a coarse pass over every front, close-in passes round hits, then fans off.</summary>
internal sealed class ForwardVisit
{
    private const double Foot = LengthUnits.MetresPerFoot;
    private const double Limit = 1;
    private const double Noise = 0.3;
    private static readonly DateTimeOffset Begin = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);
    private readonly Random random;
    private readonly ForwardStore store;
    private readonly ForwardAir?[] airs;
    private readonly List<NetReading> readings = [];
    private readonly double background;
    private DateTimeOffset time = Begin;

    public ForwardVisit(Random random, ForwardStore store, ForwardAir?[] airs)
    {
        this.random = random;
        this.store = store;
        this.airs = airs;
        background = random.NextDouble() * 1.5;
        foreach (var air in airs) air?.Run(900);
    }

    /// <summary>The visit so far.</summary>
    public NetSurvey Survey => new(
        new Survey { Store = store.Plan.Id, Start = Begin, Instruments = [new Instrument { Id = "M1" }], Readings = [.. readings.Select(r => r.Reading)] },
        [.. readings], [new RoomBackground(null, "Sales floor", background, 0.3, readings.Count, false, null)], []);

    /// <summary>Highest net reading on any fixture, in one air state or in both.</summary>
    public NetReading? Highest(AirState? air) => readings.Where(r => air is null || r.Reading.Air == air).MaxBy(r => r.Bound == ReadingBound.Below ? -1 : r.NetPpm);

    public bool HasHit => readings.Any(r => r.IsHit);

    public void Coarse()
    {
        for (var a = 0; a < airs.Length; a++)
        {
            for (var side = 0; side < 2; side++)
            {
                var lineUp = store.Aisles[a][side];
                foreach (var fixture in lineUp.Fixtures)
                {
                    var step = (fixture.Kind == FixtureKind.DoorCase ? 7.5 : 4.5) * Foot;
                    var count = Math.Max(1, (int)Math.Round(fixture.Front!.Length / step));
                    for (var i = 0; i < count; i++) Read(a, side, fixture, (i + 0.5) * fixture.Front.Length / count, AirState.FansOn);
                }
            }

            airs[a]?.Run(60);
        }

        foreach (var walkIn in store.Plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn))
        {
            foreach (var at in walkIn.Coils.Append(walkIn.Opening!.Value.Middle + new PlanPoint(0, 1)))
            {
                Add(0, new ReadingPlace { Fixture = walkIn.Id, At = at, Room = walkIn.Id }, AirState.FansOn, ProbeHeight.High);
                Add(0, new ReadingPlace { Fixture = walkIn.Id, At = at, Room = walkIn.Id }, AirState.FansOn, ProbeHeight.Low);
            }
        }
    }

    /// <summary>2 ft steps within 5 ft of every hit not covered yet.</summary>
    public void CloseIn()
    {
        foreach (var (a, side, s, _) in Hits())
        {
            foreach (var at in Steps(store.Aisles[a][side], s, 5 * Foot)) Once(a, side, at, AirState.FansOn);
        }
    }

    /// <summary>2 ft steps within 4 ft of the highest reading of each line-up with a hit, fans stopped two minutes before.</summary>
    public void FansOff()
    {
        foreach (var group in Hits().GroupBy(h => (h.Aisle, h.Side)).ToList())
        {
            var (a, side) = group.Key;
            var peaks = new List<double>();
            foreach (var hit in group.OrderByDescending(h => h.Net))
            {
                if (peaks.All(p => Math.Abs(p - hit.S) > 6 * Foot) && (peaks.Count == 0 || hit.Net > 0.15 * group.Max(h => h.Net))) peaks.Add(hit.S);
            }

            airs[a]?.SetFans(side, false);
            airs[a]?.Run(120);
            foreach (var peak in peaks)
            {
                foreach (var at in Steps(store.Aisles[a][side], peak, 4 * Foot)) Once(a, side, at, AirState.FansOff);
            }

            airs[a]?.SetFans(side, true);
            airs[a]?.Run(600);
        }
    }

    private static IEnumerable<double> Steps(ForwardLineUp lineUp, double s, double reach)
    {
        for (var at = s - reach; at <= s + reach + 1e-9; at += 2 * Foot)
        {
            if (at >= 0 && at <= lineUp.Length) yield return at;
        }
    }

    private List<(int Aisle, int Side, double S, double Net)> Hits()
    {
        var hits = new List<(int, int, double, double)>();
        foreach (var reading in readings.Where(r => r.IsHit && r.Reading.Place.Along is not null))
        {
            for (var a = 0; a < store.Aisles.Count; a++)
            {
                for (var side = 0; side < 2; side++)
                {
                    var lineUp = store.Aisles[a][side];
                    if (lineUp.Fixtures.Any(f => f.Id == reading.Reading.Place.Fixture)) hits.Add((a, side, reading.Reading.Place.At.X - lineUp.Left, reading.NetPpm));
                }
            }
        }

        return hits;
    }

    // Places within half a foot of a reading in the same state are not probed again.
    private void Once(int a, int side, double s, AirState state)
    {
        var (fixture, along) = store.Aisles[a][side].At(s);
        if (readings.Any(r => r.Reading.Air == state && r.Reading.Place.Fixture == fixture.Id && Math.Abs(r.Reading.Place.Along!.Value - along) < 0.5 * Foot)) return;
        Read(a, side, fixture, along, state);
    }

    private void Read(int a, int side, Fixture fixture, double along, AirState state)
    {
        var at = fixture.Front!.PointAt(along);
        airs[a]?.Run(12);
        // The dwell is 10 s; what is read down is the mean of its last seconds.
        var sum = 0.0;
        for (var i = 0; i < 4; i++)
        {
            airs[a]?.Run(1);
            sum += airs[a]?.Probe(side, at.X - store.Aisles[a][side].Left) ?? 0;
        }

        Add(sum / 4, new ReadingPlace { Fixture = fixture.Id, Along = along, At = at }, state, ProbeHeight.Low);
    }

    private void Add(double gas, ReadingPlace place, AirState state, ProbeHeight height)
    {
        time = time.AddSeconds(16);
        var shown = Math.Round(gas + background + (Noise * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble())));
        var bound = shown < Limit ? ReadingBound.Below : shown > 1000 ? ReadingBound.AtLeast : ReadingBound.Exact;
        var ppm = bound switch { ReadingBound.Below => Limit, ReadingBound.AtLeast => 1000, _ => shown };
        readings.Add(new NetReading
        {
            Reading = new Reading { Time = time, Ppm = ppm, Bound = bound, Place = place, Air = state, Height = height },
            BackgroundPpm = background, NetPpm = ppm - background, DeviationPpm = 0.5, Bound = bound,
            DetectionPpm = Limit, ActionPpm = 2,
        });
    }
}
