using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>Still air of a short, closed and well mixed stretch, and the strength that a steady level stands for, against the tracer balance of
/// one zone, V dC/dt = G − Q C, in the form of ASTM E741: build-up C = (G/Q)(1 − exp(−A t)), decay A = ln(C1/C2)/(t2 − t1), A = Q/V. Rows (conversion
/// rows of the trade, 24.45 L/mol): V 100 m³, Q 50 m³/h, G 200 g/h of R-134a makes 377, 606 and 911 ppm after 1, 2 and 6 h, 959 in the end; at 0.3
/// air changes an hour 19,245 ppm take 9.857 h to fall to 1,000.</summary>
public class RoomBalanceTests
{
    private const double Hour = 3600;
    private const double MolarMassOfR134A = 102.03;
    private const double KelvinOf2445 = 298.15 * 24.45 / 24.465;
    private const double Mixing = 2;

    // Implicit steps that grow by a quarter: a little late.
    private const double StepShare = 0.05;

    [Theory]
    [InlineData(1, 377)]
    [InlineData(2, 606)]
    [InlineData(6, 911)]
    public void BuildUp_WellMixedStretch_IsTheBoxModelsRow(double hours, double ppm)
    {
        const double changes = 0.5 / Hour;
        var level = 959 * changes * BuiltUpSeconds(hours * Hour, changes);
        Assert.InRange(level / ppm, 1 - StepShare, 1 + StepShare);
    }

    [Theory]
    [InlineData(1, 0.63212)]
    [InlineData(2.9957, 0.95)]
    public void BuildUp_AfterSomeTimeConstants_IsTheShareOfTheSteadyLevel(double timeConstants, double share)
    {
        Assert.InRange(StillAir.Loss * BuiltUpSeconds(timeConstants / StillAir.Loss, StillAir.Loss) / share, 1 - StepShare, 1 + StepShare);
    }

    [Fact]
    public void Join_WithoutALeak_DecaysByTheAirChangeAndTakesTheRowsTime()
    {
        const double changes = 0.3 / Hour;
        var (first, later) = (Left(StillAir.UnitSeconds), Left(StillAir.UnitSeconds + (9.857 * Hour)));
        Assert.Equal(1000, later, 0.2);
        Assert.Equal(changes, Math.Log(first / later) / (9.857 * Hour), 1e-12);

        double Left(double seconds)
        {
            var response = new double[1];
            StillAir.Join([0.0], [19245.0], 1, seconds, response, changes);
            return response[0];
        }
    }

    [Fact]
    public void KilogramsPerYear_SteadyLevelOfARoom_IsWhatLeaksIn() =>
        Assert.Equal(200 * 8766 / 1000.0, RoughStrength.KilogramsPerYear(959, 50 / Hour, MolarMassOfR134A, KelvinOf2445), 2.0);

    // Mean over the stretch of what a steady source brings to a reading, a second's gas spread over the stretch counting as 1.
    private static double BuiltUpSeconds(double seconds, double changes)
    {
        var axis = CaseAirTests.Axis(2);
        var response = new double[axis.Count];
        StillAir.BuildUp(axis, new AirSetting(1.3, 0, 0, 1) { StillDispersion = Mixing }, 1.3, seconds, response, changes);
        return response.Average() * axis.Length * StillAir.UnitPeak(Mixing, changes);
    }
}
