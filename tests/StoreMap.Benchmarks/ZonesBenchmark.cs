using System.Diagnostics;
using System.Globalization;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Benchmarks;

/// <summary>Leak zones of a store of 25 fixtures and 400 readings: seconds of the first run in a fresh process and of later ones, on one
/// core. Three visits: no gas; two leaks; two leaks with still readings. Traces are exponential with noise of a tenth, made here.</summary>
internal static class ZonesBenchmark
{
    private const int Aisles = 5;
    private const int CasesARow = 5;
    private const int Readings = 400;
    private const double CaseLength = 3.66;
    private const double Pitch = 4.5;

    /// <summary>Runs each visit in a process of its own.</summary>
    public static int All()
    {
        Console.WriteLine("visit       fixtures  readings  zones  first s  later s (least, median, most of 7)");
        foreach (var visit in new[] { "quiet", "leaks", "still" })
        {
            using var child = Process.Start(Environment.ProcessPath!, ["zones", visit]);
            child.WaitForExit();
            if (child.ExitCode != 0) return child.ExitCode;
        }

        return 0;
    }

    /// <summary>Runs one visit in this process.</summary>
    public static int One(string visit)
    {
        if (OperatingSystem.IsLinux() || OperatingSystem.IsWindows()) Process.GetCurrentProcess().ProcessorAffinity = 1;
        var plan = Store();
        var survey = Visit(plan, leaks: visit != "quiet", still: visit == "still");
        var times = new List<double>();
        LocateResult? result = null;
        for (var run = 0; run < 8; run++)
        {
            var clock = Stopwatch.StartNew();
            result = LeakLocator.Locate(plan, survey, []);
            times.Add(clock.Elapsed.TotalSeconds);
        }

        var later = times.Skip(1).Order().ToArray();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{visit,-12} {plan.Fixtures.Count,7} {survey.Readings.Count,9} {result!.Zones.Count,6} {times[0],8:0.00} {later[0],8:0.00} {later[3],6:0.00} {later[^1],6:0.00}"));
        return 0;
    }

    // Rows of cases joined end to end, fronts to the south, an aisle before each.
    private static Plan Store()
    {
        var fixtures = new List<Fixture>();
        for (var row = 0; row < Aisles; row++)
        {
            for (var k = 0; k < CasesARow; k++)
            {
                var (x, y) = (3 + (k * CaseLength), 3 + (row * Pitch));
                var id = $"C{fixtures.Count + 1}";
                fixtures.Add(new Fixture
                {
                    Id = id, Tag = id, Kind = row % 2 == 0 ? FixtureKind.OpenCase : FixtureKind.DoorCase, LineUp = $"L{row}",
                    Outline = [new(x, y), new(x + CaseLength, y), new(x + CaseLength, y + 1), new(x, y + 1)],
                    Front = new PlanLine([new(x, y), new(x + CaseLength, y)]), Sections = [new Section(1, 0, CaseLength, 1, null)],
                });
            }
        }

        var (width, height) = (6 + (CasesARow * CaseLength), 3 + (Aisles * Pitch));
        return new Plan { Id = "hall", Name = "Hall", Outline = [new(0, 0), new(width, 0), new(width, height), new(0, height)], Fixtures = fixtures };
    }

    private static NetSurvey Visit(Plan plan, bool leaks, bool still)
    {
        var random = new Random(7);
        PlanPoint[] places = leaks ? [new(9, 3), new(14, 3 + (2 * Pitch))] : [];
        var readings = new List<NetReading>();
        for (var k = 0; k < Readings; k++)
        {
            var fixture = plan.Fixtures[(int)((long)k * plan.Fixtures.Count / Readings)];
            var along = random.NextDouble() * CaseLength;
            var at = fixture.Front!.PointAt(along);
            var near = places.Where(p => Math.Abs(p.Y - at.Y) < 0.1).Select(p => Math.Abs(p.X - at.X)).DefaultIfEmpty(1e9).Min();
            var stopped = still && near < 2;
            var ppm = 40 * Math.Exp(-near / (stopped ? 0.5 : 1.2)) * (0.9 + (0.2 * random.NextDouble()));
            readings.Add(Reading(fixture, at, along, k, stopped, ppm));
        }

        var survey = new Survey { Store = plan.Id, Start = readings[0].Reading.Time, Instruments = [new Instrument { Id = "M1" }], Readings = [.. readings.Select(r => r.Reading)] };
        return new NetSurvey(survey, readings, [], []);
    }

    private static NetReading Reading(Fixture fixture, PlanPoint at, double along, int number, bool stopped, double ppm) => new()
    {
        Reading = new Reading
        {
            Time = new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero).AddSeconds(15 * number), Ppm = Math.Max(1, ppm),
            Air = stopped ? AirState.FansOff : AirState.FansOn, Place = new ReadingPlace { At = at, Fixture = fixture.Id, Along = along },
        },
        BackgroundPpm = 0, NetPpm = Math.Max(1, ppm), DeviationPpm = 0.4, DetectionPpm = 1, ActionPpm = 2,
        Bound = ppm < 1 ? ReadingBound.Below : ReadingBound.Exact,
    };
}
