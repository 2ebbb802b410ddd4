using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

public class RoughStrengthTests
{
    // Conversion rows of the trade: 1,000 ppm R-448A in a walk-in of 147.25 m3 is 606.8 g at -18 °C (ideal gas law).
    [Fact]
    public void GramsPerCubicMetre_FreezerFullOfR448A_IsTheTradeRow() =>
        Assert.Equal(606.8, RoughStrength.GramsPerCubicMetre(1000, 86.28, 255.15) * 147.25, 0.5);

    // A shut four-door case exchanges 0.01727 m3/s at 4 °C; 1 ppm R-404A there is 2.339 kg a year (infiltration measured by the
    // co-heating method, Månsson et al., Chalmers; the mass by the ideal gas law).
    [Fact]
    public void KilogramsPerYear_ShutDoorCase_IsTheMeasuredExchange() =>
        Assert.Equal(2.339, RoughStrength.KilogramsPerYear(1, 0.01727, 97.60, 277.15), 0.002);

    // 1 ppm R-404A at 25 °C is 3.989 mg/m3 with RT/P.
    [Fact]
    public void GramsPerCubicMetre_OnePpmR404A_IsRtOverP() =>
        Assert.Equal(3.989e-3, RoughStrength.GramsPerCubicMetre(1, 97.60, 298.15), 1e-6);

    // 100 lb a year into 0.25 m3/s of case air is 1.63 ppm R-448A with 24.45 L/mol, the trade's case-scale row.
    [Fact]
    public void KilogramsPerYear_HundredPoundsAYear_IsTheCaseScaleRow()
    {
        var at25 = 298.15 * 24.45 / 24.465;
        Assert.Equal(45.36, RoughStrength.KilogramsPerYear(1.63, 0.25, 86.28, at25), 0.2);
    }

    [Fact]
    public void PerPeakPpm_EndlessCalmLineUp_IsTheIntegralOfTheProfile()
    {
        // Two-sided exponential of peak 1 and reach L holds 2 L metres of 1 ppm.
        var fixture = new Fixture { Id = "C", Tag = "C", Kind = FixtureKind.OpenCase, Outline = [] };
        var plan = new Plan { Id = "p", Name = "p", Outline = [] };
        var direct = RoughStrength.KilogramsPerYear(1, 0.022 * 2 * 1.5, 86.28, 274);
        Assert.Equal(direct, RoughStrength.PerPeakPpm(plan, fixture, 0, 1.5), 1e-9);
    }
}
