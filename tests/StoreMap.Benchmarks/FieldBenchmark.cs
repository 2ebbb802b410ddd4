using System.Diagnostics;
using System.Globalization;
using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Benchmarks;

/// <summary>The heat map's field at 0.25 m cells, mean and deviation: seconds of the first run in a fresh process and of a later one, on one
/// core, and the process's peak memory and what was allocated in the first; how both grow with the cells, and what estimating the values adds.</summary>
internal static class FieldBenchmark
{
    private const double Aisle = 3;
    private const double CaseDepth = 1;
    private const double CaseLength = 3.66;
    private static readonly (int Width, int Height, int Readings)[] Sizes = [(30, 20, 100), (42, 28, 200), (60, 40, 400), (85, 57, 800)];

    /// <summary>Runs all sizes, each in a process of its own.</summary>
    public static int All()
    {
        Console.WriteLine("store m     cells  readings  estimated  first s  later s  peak MB  allocated MB  coloured cells");
        foreach (var estimate in new[] { false, true })
        {
            foreach (var (width, height, readings) in Sizes)
            {
                string[] args = ["field", Text(width), Text(height), Text(readings), estimate ? "yes" : "no"];
                using var child = Process.Start(Environment.ProcessPath!, args);
                child.WaitForExit();
                if (child.ExitCode != 0) return child.ExitCode;
            }
        }

        return 0;
    }

    /// <summary>Runs one size in this process.</summary>
    public static int One(string width, string height, string readings, string estimate)
    {
        if (OperatingSystem.IsLinux() || OperatingSystem.IsWindows()) Process.GetCurrentProcess().ProcessorAffinity = 1;
        var (w, h, count) = (int.Parse(width, CultureInfo.InvariantCulture), int.Parse(height, CultureInfo.InvariantCulture), int.Parse(readings, CultureInfo.InvariantCulture));
        var plan = Store(w, h);
        var visit = Visit(plan, count);
        var settings = new FieldSettings { Estimate = estimate == "yes" };
        var times = new List<double>();
        GasField? field = null;
        var (allocated, peak) = (0.0, 0.0);
        for (var run = 0; run < 4; run++)
        {
            var clock = Stopwatch.StartNew();
            field = GasFieldBuilder.Build(plan, visit, settings);
            times.Add(clock.Elapsed.TotalSeconds);
            if (run > 0) continue;
            (allocated, peak) = (GC.GetTotalAllocatedBytes() / 1e6, Process.GetCurrentProcess().PeakWorkingSet64 / 1e6);
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{w,3} x {h,-3} {field!.Grid.Count,8} {visit.Readings.Count,9} {estimate,10} {times[0],8:0.00} {times.Skip(1).Min(),8:0.00} {peak,8:0} {allocated,12:0} {field.Evidence.Count(e => e),15}"));
        return 0;
    }

    // Double rows of cases back to back across the hall, aisles between, and a prep room along one side.
    private static Plan Store(int width, int height)
    {
        var fixtures = new List<Fixture>();
        for (var y = Aisle; y + (2 * CaseDepth) + Aisle < height; y += (2 * CaseDepth) + Aisle)
        {
            for (var x = Aisle; x + CaseLength + Aisle < width - 6; x += CaseLength)
            {
                fixtures.Add(Case($"A{fixtures.Count}", x, y, y + CaseDepth, y));
                fixtures.Add(Case($"A{fixtures.Count}", x, y + CaseDepth, y + (2 * CaseDepth), y + (2 * CaseDepth)));
            }
        }

        return new Plan
        {
            Id = "hall", Name = "Hall", Outline = Box(0, 0, width, height), Fixtures = fixtures,
            Rooms = [new Room("R1", "Prep", RoomKind.Prep, Box(width - 5, 0, width, height), [new PlanSegment(new(width - 5, 4), new(width - 5, 5))], false, 3)],
        };
    }

    private static Fixture Case(string id, double x, double y0, double y1, double front) => new()
    {
        Id = id, Tag = id, Kind = FixtureKind.OpenCase, Outline = Box(x, y0, x + CaseLength, y1),
        Front = new PlanLine([new(x, front), new(x + CaseLength, front)]), Sections = [new Section(1, 0, CaseLength, 1, null)],
    };

    private static PlanPoint[] Box(double x0, double y0, double x1, double y1) => [new(x0, y0), new(x1, y0), new(x1, y1), new(x0, y1)];

    // Readings evenly along the fronts; a leak every 20 m or so, the rest under the limit.
    private static NetSurvey Visit(Plan plan, int count)
    {
        var random = new Random(7);
        var readings = new List<NetReading>();
        for (var k = 0; k < count; k++)
        {
            var fixture = plan.Fixtures[(int)((long)k * plan.Fixtures.Count / count)];
            var along = random.NextDouble() * CaseLength;
            var at = fixture.Front!.PointAt(along);
            var ppm = 40 * Math.Exp(-Math.Abs((at.X % 20) - 7) / 2) * (1 + (0.2 * random.NextDouble()));
            readings.Add(new NetReading
            {
                Reading = new Reading
                {
                    Time = new DateTimeOffset(2026, 3, 2, 6, 0, 0, TimeSpan.Zero).AddSeconds(15 * k), Ppm = Math.Max(1, ppm),
                    Place = new ReadingPlace { At = at, Fixture = fixture.Id, Along = along },
                },
                BackgroundPpm = 0, NetPpm = Math.Max(1, ppm), DeviationPpm = 0.4, DetectionPpm = 1, ActionPpm = 2,
                Bound = ppm < 1 ? ReadingBound.Below : ReadingBound.Exact,
            });
        }

        var survey = new Survey { Store = plan.Id, Start = readings[0].Reading.Time, Instruments = [new Instrument { Id = "M1" }], Readings = [.. readings.Select(r => r.Reading)] };
        return new NetSurvey(survey, readings, [], []);
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
