using System.Text;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Surveys;

/// <summary>A small invented store of 100 x 60 ft, in feet:
/// <code>
///  +-------------------------------+----------+ 60
///  |  W1 (40..60, 50..60)          |  R1      |
///  |      door at (45..49, 50)     |  bakery  |   W2 freezer in the bakery (90..100, 50..60), door at (90, 52..56)
///  |                               +--    ----+ 40   opening (88..92, 40)
///  |   C2  (20..44, 30..33) front y=30        |
///  |   C1  (20..44, 10..13) front y=13        |
///  |   I1 island (60..72, 10..16)             |
///  +------------------------------------------+ 0
/// </code></summary>
internal static class TestStore
{
    public static Plan Plan { get; } = new()
    {
        Id = "test-store", Name = "Test store", TimeZone = "America/Chicago", Units = LengthUnit.Foot,
        Outline = Box(0, 0, 100, 60),
        Rooms = [new Room("R1", "Bakery", RoomKind.Bakery, Box(70, 40, 100, 60), [Segment(88, 40, 92, 40)], true, 3.5)],
        Fixtures =
        [
            Case("C1", "27A", Box(20, 10, 44, 13), Line(44, 13, 20, 13), "A1"),
            Case("C2", "28", Box(20, 30, 44, 33), Line(20, 30, 44, 30), "A1"),
            Case("C3", "29", Box(2, 10, 5, 34), Line(5, 10, 5, 34), "B1") with { FrontStartsLeft = false },
            new Fixture
            {
                Id = "I1", Tag = "I1", Kind = FixtureKind.IslandCase, Outline = Box(60, 10, 72, 16),
                Front = Line(60, 10, 72, 10), Back = Line(60, 16, 72, 16), Sections = [new Section(1, 0, 12 * Ft, 1, "A1")],
            },
            WalkIn("W1", Box(40, 50, 60, 60), Segment(45, 50, 49, 50)),
            WalkIn("W2", Box(90, 50, 100, 60), Segment(90, 52, 90, 56)),
        ],
        Circuits = [new Circuit("A1", "A", [], null), new Circuit("B1", "B", [], null)],
        Systems =
        [
            new RefrigerationSystem("A", SystemType.Direct, "R-448A", 600),
            new RefrigerationSystem("B", SystemType.Direct, "R-744", 300),
        ],
    };

    public static IReadOnlyList<ProbePoint> Points { get; } =
    [
        new ProbePoint { Id = "B1", Pass = ProbePass.Background, At = At(50, 25), Stand = At(50, 25) },
        new ProbePoint { Id = "B2", Pass = ProbePass.Background, At = At(80, 50), Stand = At(80, 50), Room = "R1" },
        .. Enumerable.Range(0, 6).Select(i => new ProbePoint
        {
            Id = $"C2-{i + 1}", Fixture = "C2", Pass = ProbePass.Front, Along = (2 + (4 * i)) * Ft, At = At(22 + (4 * i), 30), Stand = At(22 + (4 * i), 28),
        }),
    ];

    public const double Ft = LengthUnits.MetresPerFoot;

    public static PlanPoint At(double x, double y) => new(x * Ft, y * Ft);

    public static SurveyReadResult Read(string text, SurveyReadOptions? options = null, Plan? plan = null) =>
        SurveyReader.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "log.csv", plan ?? Plan, Points, options);

    /// <summary>Each problem as "row: field: rule", in order.</summary>
    public static string[] Refused(string text, SurveyReadOptions? options = null) =>
    [
        .. Assert.Throws<RefusedInputException>(() => Read(text, options)).Problems
            .Where(p => p.Severity == Severity.Error).Select(p => $"{p.Element}: {p.Field}: {p.Rule}"),
    ];

    private static PlanPoint[] Box(double x0, double y0, double x1, double y1) => [At(x0, y0), At(x1, y0), At(x1, y1), At(x0, y1)];

    private static PlanLine Line(double x0, double y0, double x1, double y1) => new([At(x0, y0), At(x1, y1)]);

    private static PlanSegment Segment(double x0, double y0, double x1, double y1) => new(At(x0, y0), At(x1, y1));

    private static Fixture Case(string id, string tag, PlanPoint[] outline, PlanLine front, string circuit) => new()
    {
        Id = id, Tag = tag, Kind = FixtureKind.OpenCase, Outline = outline, Front = front,
        Sections = [new Section(1, 0, front.Length / 2, 1, circuit), new Section(2, front.Length / 2, front.Length, 1, circuit)],
    };

    private static Fixture WalkIn(string id, PlanPoint[] outline, PlanSegment opening) => new()
    {
        Id = id, Tag = id, Kind = FixtureKind.WalkIn, Outline = outline, Opening = opening, WalkInCircuit = "A1",
    };
}
