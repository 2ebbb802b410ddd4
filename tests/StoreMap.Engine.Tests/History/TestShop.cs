using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Tests.History;

/// <summary>A small invented shop: two cases on system A (C1 0–6 m, C2 0–4 m), a walk-in W1 on system B, a rack Q1 of system A.</summary>
internal static class TestShop
{
    public static Plan Shop { get; } = new()
    {
        Id = "test-shop", Name = "Test shop", Units = LengthUnit.Foot, Outline = Box(0, 0, 30, 20),
        Fixtures =
        [
            Case("C1", "27A", new PlanPoint(2, 10), 6, "A1"), Case("C2", "27B", new PlanPoint(10, 10), 4, "A2"),
            new Fixture
            {
                Id = "W1", Tag = "Freezer", Kind = FixtureKind.WalkIn, Outline = Box(20, 10, 26, 16), WalkInCircuit = "B1",
                Opening = new PlanSegment(new PlanPoint(22, 10), new PlanPoint(23, 10)),
            },
        ],
        Equipment = [new Equipment("Q1", EquipmentKind.Rack, new PlanPoint(28, 18), "mezzanine", "A")],
        Pipes = [new Pipe("L7", new PlanLine([new PlanPoint(2, 12), new PlanPoint(28, 18)]), "ceiling", "A1")],
        Circuits = [new Circuit("A1", "A", [], null), new Circuit("A2", "A", [], null), new Circuit("B1", "B", [], null)],
        Systems =
        [
            new RefrigerationSystem("A", SystemType.Direct, "R-448A", 600), new RefrigerationSystem("B", SystemType.Direct, "R-404A", null),
        ],
    };

    public static DateOnly Day(int month, int day) => new(2026, month, day);

    public static Fixture Case(string id, string tag, PlanPoint at, double length, string circuit) => new()
    {
        Id = id, Tag = tag, Kind = FixtureKind.OpenCase, Outline = Box(at.X, at.Y, at.X + length, at.Y + 1),
        Front = new PlanLine([at, at + new PlanPoint(length, 0)]),
        Sections = [new Section(1, 0, length / 2, 1, circuit), new Section(2, length / 2, length, 1, circuit)],
    };

    /// <summary>A reading at a distance along a case, or in the walk-in.</summary>
    public static NetReading At(string fixture, double? along, double net, Func<NetReading, NetReading>? change = null)
    {
        var place = Shop.FindFixture(fixture)!;
        var reading = new NetReading
        {
            Reading = new Reading
            {
                Time = default, Ppm = net + 1,
                Place = new ReadingPlace { Fixture = fixture, Along = along, At = place.Front?.PointAt(along ?? 0) ?? new PlanPoint(22, 12) },
            },
            BackgroundPpm = 1, NetPpm = net, DeviationPpm = 0.5, DetectionPpm = 1, ActionPpm = 2,
        };
        return change?.Invoke(reading) ?? reading;
    }

    public static NetReading Below(string fixture, double along, double detection = 1) =>
        At(fixture, along, detection, r => r with { Bound = ReadingBound.Below, DetectionPpm = detection });

    public static LeakZone Zone(string fixture, double from, double to, double peak, double probability = 0.95, double low = 2, double high = 20) => new()
    {
        Fixture = fixture, Probability = probability, From = from, To = to, Center = (from + to) / 2,
        At = Shop.FindFixture(fixture)!.Front!.PointAt((from + to) / 2), PeakPpm = peak, Strength = "medium", Reason = "test",
        StrengthLowKilogramsPerYear = low, StrengthHighKilogramsPerYear = high,
    };

    public static LocateResult Located(params LeakZone[] zones) => new(zones, [], [], [], [], null);

    public static SurveyVisit Visit(DateOnly day, IReadOnlyList<NetReading> readings, LocateResult result, IReadOnlyList<SystemCoverage>? coverage = null)
    {
        var start = new DateTimeOffset(day.ToDateTime(new TimeOnly(6, 0)), TimeSpan.FromHours(-5));
        var taken = readings.Select((r, i) => r with { Reading = r.Reading with { Time = start.AddMinutes(i) } }).ToList();
        var survey = new Survey
        {
            Store = Shop.Id, Start = start, Instruments = [new Instrument { Id = "M1" }], Readings = [.. taken.Select(r => r.Reading)],
            Coverage = coverage ?? [],
        };
        return new SurveyVisit(new NetSurvey(survey, taken, [], []), result);
    }

    public static PlanPoint[] Box(double x0, double y0, double x1, double y1) =>
        [new PlanPoint(x0, y0), new PlanPoint(x1, y0), new PlanPoint(x1, y1), new PlanPoint(x0, y1)];
}
