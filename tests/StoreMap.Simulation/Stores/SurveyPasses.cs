using System.Globalization;
using System.Text;
using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>The fixed protocol: a coarse pass of the whole store, a closer pass around its hits, still air around what that shows.</summary>
public static class SurveyPasses
{
    private const double Ft = LengthUnits.MetresPerFoot;
    private const double ActionPpm = 2;
    private const double StillReach = 5 * Ft;
    private const int StillSeconds = 75;

    /// <summary>Every fixture with fans on: 4.5 ft along fronts, 7.5 ft along doors, low and high in walk-ins, the aisle between.</summary>
    public static void Coarse(SimulatedStore store, Surveyor surveyor)
    {
        var plan = store.Plan;
        var style = new SeededNoise(store.Seed).Fork(8);
        Spot? spot = style.Below(3) switch { 0 => null, 1 => Spot.Front, _ => Spot.Return };
        var offset = style.Between(0.25, 0.75);
        Background(plan, surveyor);
        foreach (var axis in CaseAxis.Of(plan))
        {
            foreach (var fixture in axis.Fixtures)
            {
                var step = (fixture.Kind == FixtureKind.DoorCase ? 7.5 : 4.5) * Ft;
                foreach (var along in Steps(fixture.Front!.Length, step, offset)) surveyor.Probe(ProbePlace.On(fixture, along, fixture.Kind == FixtureKind.DoorCase ? Spot.DoorGap : spot));
                if (fixture.Back is null) continue;
                foreach (var along in Steps(fixture.Back.Length, step, offset)) surveyor.Probe(ProbePlace.On(fixture, along, spot, null, onBack: true));
            }

            var (first, middle) = axis.At(axis.Length / 2);
            Aisle(plan, surveyor, first.Front!.PointAt(middle) + (first.OutwardAt(middle) * 1.3));
        }

        foreach (var box in plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn)) InWalkIn(box, surveyor);
    }

    /// <summary>Places where a coarse pass found gas: local maxima of 2 ppm or more above the quiet readings, highest first, at most three,
    /// 10 ft apart along a line-up.</summary>
    public static IReadOnlyList<NotedReading> Hits(SimulatedStore store, Surveyor surveyor)
    {
        var readings = surveyor.Noted.Where(r => r.Place.Fixture is not null).ToList();
        if (readings.Count == 0) return [];
        var quiet = readings.Select(r => r.Ppm).Order().ElementAt(readings.Count / 4);
        var hits = new List<NotedReading>();
        foreach (var r in readings.Where(r => r.Ppm - quiet >= ActionPpm).OrderByDescending(r => r.Ppm).ThenBy(r => r.Second))
        {
            if (hits.Count == 3) break;
            if (hits.All(h => h.Place.At.DistanceTo(r.Place.At) > 10 * Ft && !(IsWalkIn(store, r) && h.Place.Fixture == r.Place.Fixture))) hits.Add(r);
        }

        return hits;
    }

    /// <summary>A 2-ft step over 8 ft to either side of each hit, on to the joined case, with a low reading at the kick plate at every other;
    /// then the aisle before the hit, and the tip moved under the lines over as many feet, the highest number written down.</summary>
    public static void CloseIn(SimulatedStore store, Surveyor surveyor, IReadOnlyList<NotedReading> hits)
    {
        foreach (var hit in hits)
        {
            if (IsWalkIn(store, hit))
            {
                AroundWalkIn(store.Plan.FindFixture(hit.Place.Fixture)!, surveyor);
                continue;
            }

            var low = false;
            foreach (var place in Around(store, hit.Place, 8 * Ft, 2 * Ft))
            {
                surveyor.Probe(place);
                if (low) surveyor.Probe(place with { Spot = Spot.KickPlate, Height = ProbeHeight.Low });
                low = !low;
            }

            Aisle(store.Plan, surveyor, hit.Place.At + ((hit.Place.Stand - hit.Place.At) * 2));
            SweepAbove(store, surveyor, hit.Place);
        }
    }

    /// <summary>The tip moved under the lines overhead, 8 ft to either side of a place.</summary>
    public static void SweepAbove(SimulatedStore store, Surveyor surveyor, ProbePlace place) =>
        surveyor.Sweep([.. Around(store, place, 8 * Ft, Ft).Select(p => p with { Spot = Spot.Ceiling, Height = ProbeHeight.High })]);

    /// <summary>Stops the fans of each fixture with a hit and probes it every 2 ft over 5 ft to either side of the highest reading near each hit,
    /// beginning 75 s later; places that were probed so for an earlier hit are left out.</summary>
    public static void FansOff(SimulatedStore store, Surveyor surveyor, IReadOnlyList<NotedReading> hits)
    {
        var stopped = new HashSet<string>();
        foreach (var hit in hits)
        {
            var best = surveyor.Noted.Where(r => r.Place.Fixture is not null && r.Place.Spot is not (Spot.KickPlate or Spot.Ceiling) && r.Air == AirState.FansOn && SameCase(store, r, hit)
                && r.Place.At.DistanceTo(hit.Place.At) < 3).OrderByDescending(r => r.Ppm).First();
            var places = IsWalkIn(store, hit) ? [] : Around(store, best.Place, StillReach, 2 * Ft).Where(p => !Probed(surveyor, p)).ToList();
            if (places.Count == 0 && stopped.Contains(best.Place.Fixture!)) continue;
            var started = false;
            foreach (var fixture in places.Select(p => p.Fixture!).Append(best.Place.Fixture!).Distinct())
            {
                if (!stopped.Add(fixture)) continue;
                surveyor.StopFans(fixture);
                started = true;
            }

            if (started) surveyor.Wait(StillSeconds);
            foreach (var place in places) surveyor.Probe(place);
            if (IsWalkIn(store, hit)) AroundWalkIn(store.Plan.FindFixture(hit.Place.Fixture)!, surveyor);
        }
    }

    // Within a foot of a place that was probed with its fans stopped, on the same edge.
    private static bool Probed(Surveyor surveyor, ProbePlace place) => surveyor.Noted.Any(r =>
        r.Air == AirState.FansOff && r.Place.Fixture == place.Fixture && r.Place.OnBack == place.OnBack && r.Place.At.DistanceTo(place.At) < Ft);

    /// <summary>A continuous log instead of stops: every front walked both ways at 0.4 ft/s.</summary>
    /// <returns>The marks as a file, in the layout's units.</returns>
    public static string Continuous(SimulatedStore store, Surveyor surveyor)
    {
        var unit = store.Plan.Units.InMetres();
        var marks = new StringBuilder("time,fixture,at,x,y,event\n");
        Background(store.Plan, surveyor);
        foreach (var noted in surveyor.Noted)
        {
            var arrived = noted.Second - (int)Math.Ceiling(surveyor.Monitor.SettleSeconds + 1);
            marks.Append(CultureInfo.InvariantCulture, $"{Surveyor.Time(arrived)},,,{noted.Place.At.X / unit:0.###},{noted.Place.At.Y / unit:0.###},\n");
        }

        foreach (var axis in CaseAxis.Of(store.Plan))
        {
            foreach (var fixture in axis.Fixtures) Walk(fixture, axis.ToAxis(fixture.Id, 0) < axis.ToAxis(fixture.Id, fixture.Front!.Length));
            foreach (var fixture in axis.Fixtures.Reverse()) Walk(fixture, axis.ToAxis(fixture.Id, 0) > axis.ToAxis(fixture.Id, fixture.Front!.Length));
        }

        return marks.ToString();

        void Walk(Fixture fixture, bool forward)
        {
            var length = fixture.Front!.Length;
            var (from, to) = forward ? (0.0, length) : (length, 0.0);
            var (begin, end) = surveyor.WalkAlong(fixture, from, to, 0.4 * Ft);
            marks.Append(CultureInfo.InvariantCulture, $"{Surveyor.Time(begin)},{fixture.Id},{from / unit:0.###},,,start\n");
            marks.Append(CultureInfo.InvariantCulture, $"{Surveyor.Time(end)},{fixture.Id},{to / unit:0.###},,,end\n");
        }
    }

    /// <summary>Distances at about the given step that fill a length.</summary>
    public static IEnumerable<double> Steps(double length, double step, double offset)
    {
        var count = Math.Max(1, (int)Math.Round(length / step));
        for (var i = 0; i < count; i++) yield return (i + offset) * length / count;
    }

    private static void Background(Plan plan, Surveyor surveyor)
    {
        surveyor.Probe(ProbePlace.Open(plan.Entrances[0].At + new PlanPoint(0, 1)));
        foreach (var room in plan.Rooms)
        {
            var (low, high) = (room.Outline[0], room.Outline[2]);
            surveyor.Probe(ProbePlace.Open(new PlanPoint(low.X + ((high.X - low.X) * 0.25), (low.Y + high.Y) / 2)));
        }
    }

    // Within 3 ft of a front a place told by x and y is one at that front, so in an aisle too narrow its air is not noted.
    private static void Aisle(Plan plan, Surveyor surveyor, PlanPoint at)
    {
        if (PlanPlaces.NearestFront(plan, at) is null) surveyor.Probe(ProbePlace.Open(at));
    }

    private static void InWalkIn(Fixture box, Surveyor surveyor)
    {
        var (low, high) = (box.Outline[0], box.Outline[2]);
        foreach (var (u, v) in new[] { (0.3, 0.3), (0.3, 0.7), (0.75, 0.5) })
        {
            var at = new PlanPoint(low.X + ((high.X - low.X) * u), low.Y + ((high.Y - low.Y) * v));
            surveyor.Probe(ProbePlace.Open(at, box.Id, ProbeHeight.Low));
            if (u > 0.5) surveyor.Probe(ProbePlace.Open(at, box.Id, ProbeHeight.High));
        }
    }

    private static void AroundWalkIn(Fixture box, Surveyor surveyor)
    {
        var (low, high) = (box.Outline[0], box.Outline[2]);
        foreach (var v in new[] { 0.2, 0.5, 0.8 })
        {
            foreach (var u in new[] { 0.2, 0.5, 0.8 })
            {
                var at = new PlanPoint(low.X + ((high.X - low.X) * u), low.Y + ((high.Y - low.Y) * v));
                surveyor.Probe(ProbePlace.Open(at, box.Id, ProbeHeight.Mid));
            }
        }
    }

    private static List<ProbePlace> Around(SimulatedStore store, ProbePlace place, double reach, double step)
    {
        var axis = CaseAxis.Of(store.Plan).First(a => a.Fixtures.Any(f => f.Id == place.Fixture));
        var fixture = store.Plan.FindFixture(place.Fixture)!;
        var middle = axis.ToAxis(fixture.Id, place.OnBack ? place.Along * fixture.Front!.Length / fixture.Back!.Length : place.Along);
        var places = new List<ProbePlace>();
        for (var s = middle - reach; s <= middle + reach + 0.01; s += step)
        {
            if (s < 0 || s > axis.Length) continue;
            var (at, along) = axis.At(s);
            places.Add(ProbePlace.On(at, along, place.Spot, null, place.OnBack));
        }

        return places;
    }

    private static bool SameCase(SimulatedStore store, NotedReading a, NotedReading b) =>
        a.Place.Fixture == b.Place.Fixture || (store.Plan.FindFixture(a.Place.Fixture)!.LineUp is { } lineUp && lineUp == store.Plan.FindFixture(b.Place.Fixture)!.LineUp);

    private static bool IsWalkIn(SimulatedStore store, NotedReading reading) => store.Plan.FindFixture(reading.Place.Fixture)!.Kind == FixtureKind.WalkIn;
}
