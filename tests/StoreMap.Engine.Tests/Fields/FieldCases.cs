using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Fields;

/// <summary>Readings and surveys for the field's tests.</summary>
internal static class FieldCases
{
    /// <summary>One net reading in the air of the floor, or of a case.</summary>
    public static NetReading At(
        double x, double y, double net, ReadingBound bound = ReadingBound.Exact, double deviation = 0.3, string? fixture = null) => new()
        {
            Reading = new Reading
            {
                Time = new DateTimeOffset(2026, 3, 1, 8, 0, 0, TimeSpan.Zero),
                Ppm = Math.Max(0, net),
                Bound = bound,
                Place = new ReadingPlace { At = new PlanPoint(x, y), Fixture = fixture },
            },
            BackgroundPpm = 0,
            NetPpm = net,
            DeviationPpm = deviation,
            Bound = bound,
            DetectionPpm = 1,
            ActionPpm = 2,
        };

    /// <summary>A visit of such readings.</summary>
    public static NetSurvey Survey(params IReadOnlyList<NetReading> readings) => new(
        new Survey
        {
            Store = "hall",
            Start = new DateTimeOffset(2026, 3, 1, 8, 0, 0, TimeSpan.Zero),
            Instruments = [new Instrument { Id = "M1" }],
            Readings = [.. readings.Select(r => r.Reading)],
        },
        readings, [], []);

    /// <summary>The field of a visit.</summary>
    public static GasField Map(Plan plan, NetSurvey survey, FieldSettings? settings = null, FieldGround? ground = null) =>
        GasFieldBuilder.Build(plan, survey, settings, ground: ground, cancel: TestContext.Current.CancellationToken);

    /// <summary>The cell of a field that holds a point.</summary>
    public static int Cell(GasField field, double x, double y) => field.Grid.IndexOf(new PlanPoint(x, y));
}
