using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>All the air of a simulated store, moved on second by second.</summary>
internal sealed class StoreAir
{
    private const double AmbientPpm = 0.2;
    private const double SinkMetres = 1.5;
    private const double CanopyMetres = 1.3;

    /// <summary>How far under the lines the tip is held, and how far over the cases, metres.</summary>
    private const double UnderLinesMetres = 0.4, OverCasesMetres = 1.8;

    private readonly SimulatedStore store;
    private readonly IReadOnlyList<StoreLeak> leaks;
    private readonly RoomGrid room;
    private readonly List<LineUpSpaces> lineUps = [];
    private readonly Dictionary<string, LineUpSpaces> lineUpOf = [];
    private readonly Dictionary<string, WalkInAir> walkIns = [];
    private readonly SeededNoise sinking;
    private readonly PlanPoint draught;
    private readonly double sprayLife;
    private double seconds;

    public StoreAir(SimulatedStore store, IReadOnlyList<StoreLeak> leaks)
    {
        (this.store, this.leaks) = (store, leaks);
        var noise = new SeededNoise(store.Seed).Fork(5);
        Nature = AirNature.Of(store.Roughness, noise.Fork(1));
        room = new RoomGrid(store.Plan, Nature, noise.Fork(2));
        sinking = noise.Fork(3);
        var overhead = noise.Fork(6);
        draught = new PlanPoint(overhead.Normal(), overhead.Normal()) * (Nature.RoomDraught / Math.Sqrt(2));
        sprayLife = noise.Fork(4).LogBetween(900, 7200);
        var salt = 100UL;
        foreach (var axis in CaseAxis.Of(store.Plan))
        {
            var spaces = new LineUpSpaces(axis, Nature, room, noise.Fork(salt++));
            lineUps.Add(spaces);
            foreach (var fixture in axis.Fixtures) lineUpOf[fixture.Id] = spaces;
        }

        foreach (var fixture in store.Plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn))
        {
            walkIns[fixture.Id] = new WalkInAir(fixture, noise.Fork(salt++), leaks.Where(l => l.Fixture == fixture.Id));
        }
    }

    public AirNature Nature { get; }

    /// <summary>Moves on by a second.</summary>
    public void Step()
    {
        foreach (var leak in leaks) Release(leak);
        foreach (var lineUp in lineUps) lineUp.Step(1, room);
        foreach (var fixture in store.Plan.Fixtures)
        {
            if (walkIns.TryGetValue(fixture.Id, out var air)) air.Step(1);
        }

        room.Step(1);
        seconds++;
    }

    public void SetFans(string fixture, bool stop)
    {
        if (walkIns.TryGetValue(fixture, out var walkIn)) walkIn.Still = stop;
        else lineUpOf[fixture].SetFans(fixture, stop);
    }

    /// <summary>ppm that leaks bring to a tip, without the store's own level.</summary>
    /// <param name="place">Where the technician thinks the tip is.</param>
    /// <param name="slip">Metres along the front by which the hand is off.</param>
    public double Gas(ProbePlace place, double slip)
    {
        if (place.Fixture is null) return room.At(place.At);
        if (walkIns.TryGetValue(place.Fixture, out var walkIn)) return walkIn.At(place.At, place.Height);
        var spaces = lineUpOf[place.Fixture];
        var fixture = store.Plan.FindFixture(place.Fixture)!;
        var along = place.OnBack ? place.Along * fixture.Front!.Length / fixture.Back!.Length : place.Along;
        var s = Math.Clamp(spaces.Axis.ToAxis(place.Fixture, along) + slip, 0, spaces.Axis.Length);
        var aisle = room.At(place.Stand);
        return place.Spot switch
        {
            Spot.Ceiling => Overhead(place.At, fixture.OutwardAt(along)),
            Spot.KickPlate or Spot.Perimeter => (0.25 * spaces.CaseAt(s, place.OnBack)) + (0.8 * spaces.BaseAt(s)) + (0.3 * aisle),
            Spot.Discharge => (0.45 * (spaces.CaseAt(s - 0.4, false) + spaces.CaseAt(s + 0.4, false))) + (0.1 * aisle),
            _ => (0.85 * spaces.CaseAt(s, place.OnBack)) + (0.1 * spaces.BaseAt(s)) + (0.15 * aisle),
        };
    }

    // The tip follows the lines that run over a case or its edge; what is inside a case has its metres to rise.
    private double Overhead(PlanPoint at, PlanPoint outward)
    {
        var sum = 0.0;
        foreach (var leak in leaks.Where(l => l.Site != LeakSite.WalkIn))
        {
            var away = at - leak.At;
            var across = (away.X * outward.X) + (away.Y * outward.Y);
            if (leak.Site == LeakSite.Overhead && Math.Abs(across) < CanopyMetres) away -= outward * across;
            sum += leak.PpmCubicMetresPerSecond * DraughtPlume.At(away, leak.Fixture is null ? UnderLinesMetres : OverCasesMetres, draught, Nature.RoomDispersion);
        }

        return sum;
    }

    /// <summary>ppm in the aisle while the tip is carried.</summary>
    public double Carried(PlanPoint at) => room.At(at);

    /// <summary>ppm of the store's own air at a place: a little everywhere, more where something was sprayed.</summary>
    public double Level(PlanPoint at)
    {
        if (store.SprayRoom is null) return AmbientPpm;
        var spray = store.SprayPpm * Math.Exp(-seconds / sprayLife);
        var sprayed = store.Plan.Rooms.First(r => r.Id == store.SprayRoom);
        return AmbientPpm + (PlanRing.Holds(sprayed.Outline, at) ? spray : 0.1 * spray * Math.Exp(-sprayed.Openings[0].Middle.DistanceTo(at) / 4));
    }

    private void Release(StoreLeak leak)
    {
        if (leak.Fixture is null) Sink(leak);
        else if (walkIns.TryGetValue(leak.Fixture, out var walkIn)) walkIn.Release(leak, 1);
        else lineUpOf[leak.Fixture].Release(leak);
    }

    // Gas from above sinks over a round of about 1.5 m; what comes down on a case is drawn in by its fans, the rest falls into the aisle.
    private void Sink(StoreLeak leak)
    {
        const int parts = 4;
        var reach = leak.Site == LeakSite.Overhead ? SinkMetres : 0.4;
        for (var i = 0; i < parts; i++)
        {
            var at = leak.At + new PlanPoint(reach * sinking.Normal(), reach * sinking.Normal());
            var (lineUp, hit) = lineUps.SelectMany(l => l.Axis.Fixtures.Select(f => (LineUp: l, Fixture: f)))
                .Select(x => (x.LineUp, Hit: (x.Fixture, Place: x.Fixture.Front!.Project(at)))).MinBy(x => x.Hit.Place.Distance);
            var rate = leak.PpmCubicMetresPerSecond / parts;
            if (hit.Place.Distance < CanopyMetres) lineUp.Release(lineUp.Axis.ToAxis(hit.Fixture.Id, hit.Place.Along), rate);
            else room.Source[room.FreeCell(at, new PlanPoint(0, -1))] += rate;
        }
    }
}
