using StoreMap.Plans;

namespace StoreMap.Simulation;

/// <summary>Runs one visit second by second: leaks, air, the walk and the monitor.</summary>
public sealed class VisitSimulator
{
    private const int SettleSeconds = 1500;
    private const double AmbientPpm = 0.2;

    private readonly Scenario scenario;
    private readonly SeededNoise noise;
    private readonly Dictionary<string, LineUpAir> lineUps = [];
    private readonly List<LineUpAir> allLineUps = [];
    private readonly Dictionary<string, double> boxes = [];
    private readonly FloorAir floor;

    private VisitSimulator(Scenario scenario)
    {
        this.scenario = scenario;
        noise = new SeededNoise(scenario.Seed);
        floor = new FloorAir(new BarrierGrid(Barriers.Of(scenario.Plan)), noise.Fork(2));
        var salt = 100UL;
        var groups = scenario.Plan.Fixtures.Where(f => f.Front is not null).GroupBy(f => f.LineUp ?? "\0" + f.Id);
        foreach (var group in groups)
        {
            var air = new LineUpAir([.. group], noise.Fork(salt++), scenario.PatchDeviation);
            allLineUps.Add(air);
            foreach (var f in group) lineUps[f.Id] = air;
        }

        foreach (var f in scenario.Plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn)) boxes[f.Id] = AmbientPpm;
    }

    /// <summary>Runs the visit.</summary>
    /// <returns>What the sensor holds, ppm, one value a second from the visit's start to its last stop's end.</returns>
    public static double[] Run(Scenario scenario) => new VisitSimulator(scenario).Run();

    private double[] Run()
    {
        var last = scenario.Stops[^1];
        var seconds = (int)Math.Ceiling(last.ArriveSeconds + last.DwellSeconds) + 15;
        var tip = new double[seconds];
        var stop = 0;
        for (var t = -SettleSeconds; t < seconds; t++)
        {
            Release(t);
            foreach (var air in allLineUps) air.Step(1, f => Still(f, t), floor.Release);
            floor.Step(1);
            if (t < 0) continue;
            while (stop + 1 < scenario.Stops.Count && scenario.Stops[stop + 1].ArriveSeconds <= t) stop++;
            tip[t] = AtTip(stop, t);
        }

        return scenario.Monitor.Respond(tip, noise.Fork(3));
    }

    private bool Still(string fixture, double t) =>
        scenario.FansOff.Any(f => f.Fixture == fixture && f.FromSeconds <= t && t < f.ToSeconds);

    private void Release(double t)
    {
        foreach (var leak in scenario.Leaks)
        {
            var rate = leak.PpmCubicMetresPerSecond;
            switch (leak.Place)
            {
                case LeakPlace.WalkIn:
                    var box = scenario.Plan.FindFixture(leak.Fixture)!;
                    var volume = Area(box.Outline) * 3;
                    boxes[box.Id] += (rate / volume) - ((boxes[box.Id] - AmbientPpm) * 0.5 / 3600);
                    break;
                case LeakPlace.Overhead:
                    Sink(leak, rate);
                    break;
                default:
                    var air = lineUps[leak.Fixture!];
                    for (var i = 0; i < 2; i++) air.Release(air.Coordinate(leak.Fixture!, leak.Along), rate / 2, leak.Place == LeakPlace.Base);
                    break;
            }
        }
    }

    /// <summary>Gas from overhead sinks over a round of about 1.5 m; what falls over a case enters it through its canopy.</summary>
    private void Sink(SimulatedLeak leak, double rate)
    {
        for (var i = 0; i < 4; i++)
        {
            var at = leak.At + new PlanPoint(1.5 * noise.Normal(), 1.5 * noise.Normal());
            var under = scenario.Plan.Fixtures.Where(f => f.Front is not null)
                .Select(f => (Fixture: f, Hit: f.Front!.Project(at)))
                .OrderBy(x => x.Hit.Distance).First();
            if (under.Hit.Distance < 1.3) lineUps[under.Fixture.Id].Release(lineUps[under.Fixture.Id].Coordinate(under.Fixture.Id, under.Hit.Along), rate / 4, false);
            else floor.Release(at, rate / 4);
        }
    }

    private double AtTip(int index, double t)
    {
        var stop = scenario.Stops[index];
        var point = stop.Point;
        if (t > stop.ArriveSeconds + stop.DwellSeconds && index + 1 < scenario.Stops.Count)
        {
            // Between two stops the tip is carried through the aisle, or along the front inside one fixture.
            var next = scenario.Stops[index + 1];
            var share = (t - stop.ArriveSeconds - stop.DwellSeconds) / Math.Max(1, next.ArriveSeconds - stop.ArriveSeconds - stop.DwellSeconds);
            var at = point.Stand + ((next.Point.Stand - point.Stand) * Math.Clamp(share, 0, 1));
            return floor.Ppm(at) + Level(at, next.Point.Room, t);
        }

        var fixture = scenario.Plan.FindFixture(point.Fixture);
        if (fixture is null) return floor.Ppm(point.At) + Level(point.At, point.Room, t);
        if (fixture.Kind == FixtureKind.WalkIn)
        {
            var spray = scenario.Sprays.Where(s => s.Room == HostRoom(fixture)).Sum(s => SprayLevel(s, t));
            return (boxes[fixture.Id] * (point.Height == ProbeHeight.Low ? 1.1 : 0.95)) + spray;
        }

        var air = lineUps[fixture.Id];
        var along = point.Along ?? fixture.Front!.Project(point.At).Along;
        var s = air.Coordinate(fixture.Id, along);
        var inside = point.Spot switch
        {
            Spot.Joint => (0.9 * air.Ppm(s, false)) + AtJoint(fixture.Id, along),
            Spot.KickPlate or Spot.Perimeter => air.Ppm(s, inBase: true),
            Spot.Discharge => 0.3 * (air.Ppm(s - 1, false) + air.Ppm(s + 1, false)),
            Spot.DoorGap => (0.8 * air.Ppm(s, false)) + (0.15 * air.Ppm(s, true)),
            _ => (0.9 * air.Ppm(s, false)) + (0.15 * air.Ppm(s, true)),
        };
        return inside + floor.Ppm(point.At + (fixture.OutwardAt(along) * 0.3)) + Level(point.At, point.Room, t);
    }

    /// <summary>Close to the joint itself: a point source on a surface, c = G / (2 pi D r), D 0.005 m2/s, the tip at 2 cm.</summary>
    private double AtJoint(string fixture, double along) => scenario.Leaks
        .Where(l => l.Fixture == fixture && l.Place == LeakPlace.CaseAir)
        .Sum(l => l.PpmCubicMetresPerSecond / (2 * Math.PI * 0.005 * Math.Max(0.02, Math.Abs(l.Along - along))));

    private double Level(PlanPoint at, string? room, double t)
    {
        var id = scenario.Plan.Rooms.FirstOrDefault(r => Inside(r.Outline, at))?.Id ?? room;
        return AmbientPpm + scenario.Sprays.Where(s => s.Room == id).Sum(s => SprayLevel(s, t));
    }

    private string? HostRoom(Fixture walkIn) =>
        scenario.Plan.Rooms.FirstOrDefault(r => Inside(r.Outline, walkIn.Opening!.Value.Middle))?.Id;

    private static double SprayLevel(Spray spray, double t) =>
        t < spray.StartSeconds ? 0 : spray.PeakPpm * Math.Exp(-spray.AirChangesPerHour * (t - spray.StartSeconds) / 3600);

    private static double Area(IReadOnlyList<PlanPoint> ring) =>
        Math.Abs(ring.Select((p, i) => p.Cross(ring[(i + 1) % ring.Count])).Sum()) / 2;

    private static bool Inside(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        var inside = false;
        for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
        {
            if (ring[i].Y > p.Y != ring[j].Y > p.Y && p.X < ((ring[j].X - ring[i].X) * (p.Y - ring[i].Y) / (ring[j].Y - ring[i].Y)) + ring[i].X)
                inside = !inside;
        }

        return inside;
    }
}
