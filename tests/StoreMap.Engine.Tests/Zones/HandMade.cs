using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Zones;

/// <summary>A case of 36 ft and a neighbour across the aisle, and readings on them, made by hand.</summary>
internal static class HandMade
{
    public const double Foot = LengthUnits.MetresPerFoot;

    public static Fixture Neighbour(string id, double behind)
    {
        var length = 36 * Foot;
        return Case(LengthUnit.Foot).Fixtures[0] with
        {
            Id = id, Tag = id, Outline = [new(0, -behind - 1), new(length, -behind - 1), new(length, -behind), new(0, -behind)],
            Front = new PlanLine([new(length, -behind), new(0, -behind)]),
            Panels = [.. Enumerable.Range(0, 9).Select(i => new Panel($"{id}/{i + 1}", PanelKind.DeckPan, i * 4 * Foot, (i + 1) * 4 * Foot, 5))],
        };
    }

    // A 36 ft case of three 12 ft sections along x, its front below it.
    public static Plan Case(LengthUnit unit, bool mirrored = false, bool backward = false)
    {
        var length = 36 * Foot;
        PlanPoint[] front = [new(0, 0), new(length, 0)];
        if (backward) Array.Reverse(front);
        var fixture = new Fixture
        {
            Id = "C1", Tag = "27A", Kind = FixtureKind.OpenCase, Outline = [new(0, 0), new(length, 0), new(length, 1), new(0, 1)],
            Front = new PlanLine(front), FrontStartsLeft = !backward, ValveEnd = mirrored ? CaseEnd.Right : CaseEnd.Left,
            Sections = [.. Enumerable.Range(0, 3).Select(i => new Section(i + 1, i * 12 * Foot, (i + 1) * 12 * Foot, 1, null))],
            Panels = [.. Enumerable.Range(0, 9).Select(i => new Panel($"C1/{i + 1}", PanelKind.DeckPan, i * 4 * Foot, (i + 1) * 4 * Foot, 5))],
        };
        return new Plan { Id = "p", Name = "p", Units = unit, Outline = [new(-5, -5), new(20, -5), new(20, 5), new(-5, 5)], Fixtures = [fixture] };
    }

    public static NetSurvey Along(params (double Feet, double Ppm)[] readings) => Along(readings, null);

    // Readings at feet along the front; with a front drawn backward the plan point is at the given length less that.
    public static NetSurvey Along((double Feet, double Ppm)[] readings, double? turnedFeet) => Net(
        [.. readings.Select((r, i) => Reading(i, r.Ppm, new ReadingPlace
        {
            Fixture = "C1", Along = r.Feet * Foot, At = new PlanPoint((turnedFeet is { } f ? f - r.Feet : r.Feet) * Foot, 0),
        }))]);

    public static NetReading Reading(int index, double net, ReadingPlace place) => new()
    {
        Reading = new Reading
        {
            Time = new DateTimeOffset(2026, 3, 2, 6, index, 0, TimeSpan.Zero), Ppm = Math.Max(1, net),
            Bound = net < 1 ? ReadingBound.Below : ReadingBound.Exact, Place = place,
        },
        BackgroundPpm = 0, NetPpm = Math.Max(1, net), DeviationPpm = 0.5, Bound = net < 1 ? ReadingBound.Below : ReadingBound.Exact,
        DetectionPpm = 1, ActionPpm = 2,
    };

    public static NetSurvey Net(NetReading[] readings) => new(
        new Survey { Store = "p", Start = readings[0].Reading.Time, Instruments = [new Instrument { Id = "M1" }], Readings = [.. readings.Select(r => r.Reading)] },
        readings, [], []);
}
