using StoreMap.Fields;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

/// <summary>A made-up visit to any store, for drawing: made by simple formulas from a seed, not by the engine's own inference.</summary>
internal sealed class SampleVisit
{
    private const double Step = 1.3716;
    private readonly Plan plan;
    private readonly Lcg random;
    private readonly List<(Fixture Fixture, double Along, double Peak)> leaks = [];

    public SampleVisit(Plan plan, int seed, int leakCount = 3)
    {
        this.plan = plan;
        random = new Lcg(seed);
        Points = MakePoints();
        var cases = plan.Fixtures.Where(f => f.Front is not null).ToList();
        double[] peaks = [38, 6.5, 3.2, 140, 1.4];
        for (var i = 0; i < leakCount && cases.Count > 0; i++)
        {
            var fixture = cases[random.Next(cases.Count)];
            leaks.Add((fixture, fixture.Front!.Length * (0.15 + (0.7 * random.Value())), peaks[i % peaks.Length]));
        }

        Net = MakeReadings();
        Field = MakeField();
        Located = MakeLocated();
    }

    public IReadOnlyList<ProbePoint> Points { get; }

    public NetSurvey Net { get; }

    public GasField Field { get; }

    public LocateResult Located { get; }

    public Route Route
    {
        get
        {
            var ids = Points.Select(p => p.Id).ToList();
            var legs = Points.Zip(Points.Skip(1), (a, b) => new RouteLeg(a.Id, b.Id, [a.Stand, new PlanPoint(b.Stand.X, a.Stand.Y), b.Stand], a.Stand.DistanceTo(b.Stand))).ToList();
            var length = legs.Sum(l => l.Length);
            return new Route
            {
                Points = Points, Order = ids, Closed = false, Legs = legs, Length = length, LowerBound = length * 0.98,
                Minutes = new RouteMinutes(length / 60, Points.Sum(p => p.DwellSeconds) / 60, 12, 25), Effort = 1000,
            };
        }
    }

    public static Comparison Compare(Plan plan, int seed)
    {
        var random = new Lcg(seed);
        DateOnly[] dates = [new(2026, 4, 14), new(2026, 5, 12), new(2026, 6, 16), new(2026, 7, 14)];
        var cases = plan.Fixtures.Where(f => f.Front is not null).ToList();
        ZoneHistory Zone(int i, ZoneChange change, double?[] peaks, string? service, ZoneTrend? trend, string note)
        {
            var f = cases[i * 5 % cases.Count];
            var from = f.Front!.Length * (0.1 + (0.5 * random.Value()));
            return new ZoneHistory(
                f.Id, from, from + Math.Min(0.9, f.Front.Length * 0.3), [.. dates.Zip(peaks, (d, p) => new ZoneVisit(d, p, p >= 2, p > 900))], change, trend, service, note);
        }

        return new Comparison(
            dates,
            [
                Zone(1, ZoneChange.Recurring, [3, 6, 11, 24], "2026-06-20: flare nut tightened, not yet verified", new ZoneTrend(6, 0.083, 7.1), "Seen at every visit and rising."),
                Zone(2, ZoneChange.New, [0, 0.4, 0, 5.5], null, null, "First seen at this visit."),
                Zone(3, ZoneChange.NoLongerSeen, [8, 7, 0, 0.3], "2026-05-20: valve core replaced, verified 2026-06-01", new ZoneTrend(-4, 0.33, -2.6), "Nothing above the detection level since the repair."),
                Zone(4, ZoneChange.NotComparable, [4, null, null, null], null, null, "Not probed in like state since April."),
            ],
            [new NotComparable(cases[0].Id, [dates[2], dates[3]], "fans off in June, on in July"), new NotComparable(cases[3 % cases.Count].Id, [dates[1], dates[3]], "not probed in May")],
            [
                new MassBalance("A", "R-448A", 91, 38.5, 2.1, 9.4, 23.4, false, ["roof condensers", "pipe runs above the ceiling"]),
                new MassBalance("B", "R-404A", 91, 4.1, 1.8, 12.2, 4.4, true, []),
            ]);
    }

    private List<ProbePoint> MakePoints()
    {
        var points = new List<ProbePoint>
        {
            Point("B1", null, ProbePass.Background, Spot.Front, (plan.Entrances.Count > 0 ? plan.Entrances[0].At : plan.Outline[0]) + new PlanPoint(0, 1.5)),
        };
        foreach (var f in plan.Fixtures)
        {
            if (f.Front is { } front)
            {
                var step = f.Doors > 0 ? front.Length / f.Doors * 3 : Step;
                var count = Math.Max(1, (int)Math.Floor(front.Length / step));
                for (var i = 0; i < count; i++)
                {
                    var along = front.Length * (i + 0.5) / count;
                    var at = front.PointAt(along);
                    points.Add(Point($"{f.Id}-{i + 1}", f, f.Doors > 0 ? ProbePass.Doors : ProbePass.Front, f.Doors > 0 ? Spot.DoorGap : Spot.Front, at) with
                    {
                        Along = along, Stand = at + (f.OutwardAt(along) * 0.5),
                    });
                }
            }
            else
            {
                var inside = f.Coils.Count > 0 ? f.Coils[0] : f.Outline.Aggregate((a, b) => a + b) * (1.0 / f.Outline.Count);
                points.Add(Point($"{f.Id}-low", f, ProbePass.LowHigh, Spot.Front, inside) with { Height = ProbeHeight.Low });
                points.Add(Point($"{f.Id}-high", f, ProbePass.Coil, Spot.CoilEnd, inside + new PlanPoint(0.8, 0)) with { Height = ProbeHeight.High });
            }
        }

        points.AddRange(plan.Equipment.Select(e => Point("Q-" + e.Id, null, ProbePass.Checklist, Spot.Joint, e.At) with { Equipment = e.Id, Note = "joints and caps" }));
        return points;
    }

    private static ProbePoint Point(string id, Fixture? f, ProbePass pass, Spot spot, PlanPoint at) =>
        new() { Id = id, Fixture = f?.Id, Pass = pass, Spot = spot, At = at, Stand = at, DwellSeconds = 8 };

    private NetSurvey MakeReadings()
    {
        var start = new DateTimeOffset(2026, 7, 14, 21, 5, 0, TimeSpan.FromHours(-5));
        var readings = new List<NetReading>();
        foreach (var (i, p) in Points.Index())
        {
            if (p.Equipment is not null) continue;
            var net = leaks.Where(l => l.Fixture.Id == p.Fixture).Sum(l => l.Peak * Math.Exp(-Math.Abs(l.Along - (p.Along ?? 0)) / 1.1)) + (0.25 * (random.Value() - 0.5));
            net += leaks.Where(l => l.Fixture.Id != p.Fixture).Sum(l => l.Peak * 0.3 * Math.Exp(-l.Fixture.Front!.PointAt(l.Along).DistanceTo(p.At) / 0.8));
            var over = net > 95;
            readings.Add(new NetReading
            {
                Reading = new Reading
                {
                    Time = start.AddSeconds(i * 25), Ppm = Math.Max(0, net), Bound = over ? ReadingBound.AtLeast : net < 0.8 ? ReadingBound.Below : ReadingBound.Exact,
                    Place = new ReadingPlace { Point = p.Id, Fixture = p.Fixture, Along = p.Along, At = p.At },
                    Spot = p.Spot, Height = p.Height, Air = i % 37 == 5 ? AirState.FansOff : AirState.FansOn,
                },
                BackgroundPpm = 0.3, NetPpm = over ? 95 : net, DeviationPpm = 0.4, Bound = over ? ReadingBound.AtLeast : net < 0.8 ? ReadingBound.Below : ReadingBound.Exact,
                DetectionPpm = 1, ActionPpm = 2,
            });
        }

        var survey = new Survey
        {
            Store = plan.Id, Start = start, Technicians = ["R. Alder"], Readings = [.. readings.Select(r => r.Reading)],
            Instruments = [new Instrument { Id = "M1", Calibrated = new DateOnly(2026, 6, 2) }],
            Coverage = [.. plan.Systems.Select(s => new SystemCoverage(s.Id, false, ["roof condensers"]))],
        };
        var rooms = plan.Rooms.Take(2).Select(r => new RoomBackground(r.Id, r.Name, r.Aerosol ? 3.1 : 0.4, 0.2, 6, r.Aerosol, r.Aerosol ? "one level everywhere: aerosol" : null));
        return new NetSurvey(survey, readings, [new RoomBackground(null, "Sales floor", 0.3, 0.1, 120, false, null), .. rooms], []);
    }

    private GasField MakeField()
    {
        const double Cell = 0.4;
        double left = plan.Outline.Min(p => p.X), low = plan.Outline.Min(p => p.Y), right = plan.Outline.Max(p => p.X), high = plan.Outline.Max(p => p.Y);
        var grid = new FieldGrid(new PlanPoint(left + (Cell / 2), low + (Cell / 2)), Cell, (int)((right - left) / Cell), (int)((high - low) / Cell));
        var mean = new double[grid.Count];
        var deviation = new double[grid.Count];
        var evidence = new bool[grid.Count];
        var nearest = new double[grid.Count];
        Array.Fill(nearest, double.PositiveInfinity);
        foreach (var r in Net.Readings)
        {
            const int Reach = 8;
            var index = grid.IndexOf(r.Reading.Place.At);
            if (index < 0) continue;
            int column = index % grid.Columns, row = index / grid.Columns;
            for (var y = Math.Max(0, row - Reach); y <= Math.Min(grid.Rows - 1, row + Reach); y++)
            {
                for (var x = Math.Max(0, column - Reach); x <= Math.Min(grid.Columns - 1, column + Reach); x++)
                {
                    var cell = (y * grid.Columns) + x;
                    nearest[cell] = Math.Min(nearest[cell], grid.CentreOf(cell).DistanceTo(r.Reading.Place.At));
                }
            }
        }

        for (var i = 0; i < grid.Count; i++)
        {
            var p = grid.CentreOf(i);
            evidence[i] = nearest[i] < 2.6;
            mean[i] = 0.1 + leaks.Sum(l => l.Peak * 0.8 * Math.Exp(-Math.Pow(l.Fixture.Front!.PointAt(l.Along).DistanceTo(p) / 1.5, 1.2)));
            deviation[i] = (0.2 + (0.3 * nearest[i])) * (0.4 + (0.6 * mean[i]));
            if (!evidence[i]) deviation[i] = 2;
        }

        return new GasField
        {
            Grid = grid, MeanPpm = mean, DeviationPpm = deviation, Evidence = evidence, ActionPpm = 2,
            Exceedance = [.. mean.Select((m, i) => m > 2 ? 0.9 : 0.05)],
        };
    }

    private LocateResult MakeLocated()
    {
        var zones = leaks.OrderByDescending(l => l.Peak).Select((l, i) =>
        {
            var f = l.Fixture;
            var half = new[] { 0.35, 0.7, 1.0 }[i % 3];
            double from = Math.Max(0, l.Along - half), to = Math.Min(f.Front!.Length, l.Along + half);
            double Density(double x) => Math.Exp(-0.5 * Math.Pow((x - l.Along) / (half / 1.64), 2)) / (half / 1.64 * Math.Sqrt(2 * Math.PI));
            var panels = f.Panels.Select(p => new PanelChance(p.Id, p.From, p.To, Math.Round(Math.Clamp(Density((p.From + p.To) / 2) * (p.To - p.From), 0, 1), 3)))
                .Where(p => p.Probability >= 0.001).ToList();
            return new LeakZone
            {
                Fixture = f.Id, Probability = new[] { 0.99, 0.86, 0.55, 0.3 }[i % 4], From = from, To = to, Center = l.Along, At = f.Front.PointAt(l.Along), PeakPpm = l.Peak,
                Strength = l.Peak > 20 ? "large" : l.Peak > 5 ? "medium" : "small", StrengthLowKilogramsPerYear = l.Peak * 0.3, StrengthHighKilogramsPerYear = l.Peak * 4,
                Reason = "Highest readings of the case, falling off on both sides; a line drop stands within one panel.", Panels = panels,
                Profiles = [new FrontProfile(AirState.FansOn, false, [.. Enumerable.Range(0, 81).Select(k =>
                {
                    var x = f.Front.Length * k / 80;
                    var ppm = l.Peak * Math.Exp(-Math.Abs(x - l.Along) / 1.1);
                    return new ProfilePoint(x, ppm, ppm * 0.5, (ppm * 1.7) + 0.3, Density(x));
                })])],
            };
        }).ToList();
        var quiet = plan.Fixtures.Where(f => leaks.All(l => l.Fixture.Id != f.Id)).ToList();
        var elsewhere = plan.Drops.Take(1).Select(d => new Elsewhere(d.Fixtures.Count > 0 ? d.Fixtures[0] : d.Id, 0.62, "the line set above the drop " + d.Id, d.At));
        var next = zones.Count > 0
            ? new NextProbe(zones[0].Fixture, zones[0].At, zones[0].Center, Spot.KickPlate, AirState.FansOff, 1.2, "Still air would tell the two panels apart; it takes about 10 minutes of fans-off time.")
            : null;
        return new LocateResult(
            zones, [.. zones.SelectMany(z => z.Panels).OrderByDescending(p => p.Probability).Select(p => p.Id)], leaks.Count > 0 ? [.. elsewhere] : [],
            [.. quiet.SkipLast(1).Select(f => new NoLeakSeen(f.Id, 0.97, 1.0, 0.8, 6.5))], [.. quiet.TakeLast(1).Select(f => f.Id)], next);
    }

    /// <summary>A small linear congruential generator: the same numbers everywhere.</summary>
    internal sealed class Lcg(int seed)
    {
        private ulong state = ((ulong)(uint)seed * 2862933555777941757UL) + 3037000493UL;

        public double Value()
        {
            state = (state * 6364136223846793005UL) + 1442695040888963407UL;
            return (state >> 11) / (double)(1UL << 53);
        }

        public int Next(int below) => (int)(Value() * below);
    }
}
