using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>A reading under the lines overhead. Expected from the steady point source, c = q/(4πDr) (Carslaw and Jaeger 1959), at room dispersion
/// 0.03 m²/s, against a case's plane source, c = q/(2A√(Dk)) (A 1 m², k 0.022 1/s): a source in the case, 1.8 m under the tip, brings 0.08 of the
/// case's peak there; a line 0.4 m from it, whose gas the case has spread over 1.5 m, some 0.3 to 0.7 of the case's.</summary>
public class OverheadTests
{
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
