using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>A reading under the lines overhead.</summary>
public class OverheadTests
{
    /// <summary>In calm air of 0.03 m²/s a steady point source brings q/(4πDr) (Carslaw and Jaeger 1959), and q/(2A√(Dk)) the plane source of a case
    /// of 1 m² that loses 0.022 1/s; gas that sank over 1.5 m shows less in the case (Reed 2006). A draught only lowers what is read overhead.</summary>
    [Theory]
    [InlineData(false, 1.8)]
    [InlineData(true, 0.4)]
    public void Of_ShareUnderTheLines_LiesUnderThatOfCalmAir(bool above, double metres)
    {
        const double d = 0.03, loss = 0.022;
        var inCase = (above ? AboveCaseTests.NormalLaplace(0, Math.Sqrt(d / loss), 1.5) : 1) / (2 * Math.Sqrt(d * loss));
        var calm = 1 / (4 * Math.PI * d * metres) / inCase;
        Assert.InRange(SpotView.Of(Spot.Ceiling, low: false, onBack: false).Of(above ? SourceKind.Above : SourceKind.Coil, 0), 0.25 * calm, calm);
    }

    [Fact]
    public void Locate_GasUnderTheLines_IsProbablyNotInTheCase()
    {
        var result = With(12);
        Assert.True(result.Elsewhere.Sum(e => e.Probability) > 0.5);
        Assert.DoesNotContain(result.Zones, z => z.Probability > 0.5);
    }

    [Fact]
    public void Locate_CleanAirUnderTheLines_PinsTheCase()
    {
        var (without, with) = (With(null), With(0));
        var (before, after) = (Leak(without), Leak(with));
        Assert.True(after > 0.3 + before, $"{after} after {before}");
        Assert.True(with.Elsewhere.Sum(e => e.Probability) < without.Elsewhere.Sum(e => e.Probability) - 0.3);
        Assert.InRange(with.Zones[0].Center!.Value, 14 * Foot, 18 * Foot);
    }

    /// <summary>Metamorphic: the more gas overhead, the less of a leak in the case.</summary>
    [Fact]
    public void Locate_MoreGasUnderTheLines_NeverSpeaksForTheCase()
    {
        var leaks = new double[] { 0, 1.5, 3, 6, 12, 24 }.Select(p => Leak(With(p))).ToArray();
        for (var i = 1; i < leaks.Length; i++) Assert.True(leaks[i] <= leaks[i - 1] + 1e-3, $"{leaks[i]} after {leaks[i - 1]}");
        Assert.True(leaks[0] - leaks[^1] > 0.4);
    }

    [Theory]
    [InlineData(2, "only 2 ppm under the lines above it")]
    [InlineData(0, "no gas under the lines above it")]
    public void Locate_LittleUnderTheLines_SaysSoBesideTheHighestOfTheCase(double overhead, string said)
    {
        var zone = With(overhead).Zones[0];
        Assert.Contains("highest, 30 ppm", zone.Reason, StringComparison.Ordinal);
        Assert.Contains(said, zone.Reason, StringComparison.Ordinal);
        Assert.Equal(30, zone.PeakPpm, 1e-9);
    }

    /// <summary>What is held overhead is no part of the heat map of the floor.</summary>
    [Fact]
    public void Chosen_ReadingUnderTheLines_IsLeftOffTheField() =>
        Assert.DoesNotContain(FieldReadings.Chosen(Survey(12), AirState.FansOn), r => r.Reading.Spot == Spot.Ceiling);

    private static double Leak(LocateResult result) => result.Zones.Select(z => z.Probability).DefaultIfEmpty(0).Max();

    // A trace with its peak at 16 ft, between that of a leak and that of sinking gas (normal-Laplace), and one reading over it.
    private static LocateResult With(double? overhead) => Locating.Locate(Case(LengthUnit.Foot), Survey(overhead), []);

    private static NetSurvey Survey(double? overhead)
    {
        var readings = Along([.. Enumerable.Range(0, 12).Select(i => 1.5 + (3 * i)).Append(16).Select(ft => (ft, 30 * AboveCaseTests.NormalLaplace((ft - 16) * Foot, 1, 1) / AboveCaseTests.NormalLaplace(0, 1, 1)))]).Readings.ToList();
        if (overhead is { } ppm)
        {
            var held = Reading(20, ppm, new ReadingPlace { Fixture = "C1", Along = 16 * Foot, At = new PlanPoint(16 * Foot, 0) });
            readings.Add(held with { Reading = held.Reading with { Spot = Spot.Ceiling, Height = ProbeHeight.High } });
        }

        return Net([.. readings]);
    }
}
