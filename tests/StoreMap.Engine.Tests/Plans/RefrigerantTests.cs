using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>The refrigerant table against composition and published values. Component data: IUPAC 2021 atomic weights; IPCC AR4
/// potentials of pure fluids; designations and mass fractions of ASHRAE 34.</summary>
public class RefrigerantTests
{
    // IUPAC 2021 abridged standard atomic weights, g/mol.
    private const double C = 12.011, H = 1.008, F = 18.998, Cl = 35.45, O = 15.999, N = 14.007;

    private static readonly Dictionary<string, (double Mass, double GwpAr4, double ExposureLimit)> Pure = new()
    {
        ["32"] = (C + (2 * H) + (2 * F), 675, 1000),
        ["125"] = ((2 * C) + H + (5 * F), 3500, 1000),
        ["134a"] = ((2 * C) + (2 * H) + (4 * F), 1430, 1000),
        ["143a"] = ((2 * C) + (3 * H) + (3 * F), 4470, 1000),
        ["1234yf"] = ((3 * C) + (2 * H) + (4 * F), 4, 500),
        ["1234ze"] = ((3 * C) + (2 * H) + (4 * F), 7, 800),
        ["744"] = (C + (2 * O), 1, 5000),
    };

    // ASHRAE 34 mass percentages.
    private static readonly Dictionary<string, (string Fluid, double Percent)[]> Blends = new()
    {
        ["R-404A"] = [("125", 44), ("143a", 52), ("134a", 4)],
        ["R-407A"] = [("32", 20), ("125", 40), ("134a", 40)],
        ["R-407C"] = [("32", 23), ("125", 25), ("134a", 52)],
        ["R-407F"] = [("32", 30), ("125", 30), ("134a", 40)],
        ["R-410A"] = [("32", 50), ("125", 50)],
        ["R-448A"] = [("32", 26), ("125", 26), ("1234yf", 20), ("134a", 21), ("1234ze", 7)],
        ["R-449A"] = [("32", 24.3), ("125", 24.7), ("1234yf", 25.3), ("134a", 25.7)],
        ["R-507A"] = [("125", 50), ("143a", 50)],
        ["R-513A"] = [("1234yf", 56), ("134a", 44)],
        ["R-450A"] = [("134a", 42), ("1234ze", 58)],
        ["R-454A"] = [("32", 35), ("1234yf", 65)],
        ["R-454C"] = [("32", 21.5), ("1234yf", 78.5)],
        ["R-455A"] = [("744", 3), ("32", 21.5), ("1234yf", 75.5)],
    };

    public static TheoryData<string> BlendNames => [.. Blends.Keys];

    private static Refrigerant Of(string name) => Refrigerant.Find(name)!;

    [Theory]
    [MemberData(nameof(BlendNames))]
    public void MolarMass_Blend_FollowsFromItsComposition(string name)
    {
        var mass = 100 / Blends[name].Sum(p => p.Percent / Pure[p.Fluid].Mass);
        Assert.Equal(mass, Of(name).MolarMass, 0.02);
    }

    [Theory]
    [MemberData(nameof(BlendNames))]
    public void GwpAr4_Blend_IsTheMassWeightedMean(string name) =>
        Assert.Equal(Blends[name].Sum(p => p.Percent / 100 * Pure[p.Fluid].GwpAr4), Of(name).GwpAr4, 0.1);

    [Theory]
    [InlineData("R-404A", 97.604, 0.02)]
    [InlineData("R-407C", 86.204, 0.02)]
    [InlineData("R-410A", 72.585, 0.02)]
    [InlineData("R-507A", 98.859, 0.02)]
    public void MolarMass_Blend_AgreesWithAPropertyLibrary(string name, double mass, double tolerance) =>
        Assert.Equal(mass, Of(name).MolarMass, tolerance);

    [Fact]
    public void MolarMass_PureFluids_FollowFromTheirFormulae()
    {
        Assert.Equal(C + H + Cl + (2 * F), Of("R-22").MolarMass, 0.01);
        Assert.Equal((3 * C) + (8 * H), Of("R-290").MolarMass, 0.01);
        Assert.Equal((4 * C) + (10 * H), Of("R-600a").MolarMass, 0.01);
        Assert.Equal(N + (3 * H), Of("R-717").MolarMass, 0.01);
        Assert.Equal((2 * C) + (4 * H) + (2 * F), Of("R-152a").MolarMass, 0.01);
        foreach (var (fluid, name) in new[] { ("32", "R-32"), ("134a", "R-134a"), ("744", "R-744"), ("1234yf", "R-1234yf"), ("1234ze", "R-1234ze(E)") })
        {
            Assert.Equal(Pure[fluid].Mass, Of(name).MolarMass, 0.01);
        }
    }

    // Exposure limits of mixtures add as reciprocals over mole fractions; listed values are rounded to two digits.
    [Theory]
    [InlineData("R-454C", 615)]
    [InlineData("R-513A", 653)]
    [InlineData("R-450A", 879)]
    public void ExposureLimit_Blend_IsTheReciprocalMean(string name, double published)
    {
        var moles = Blends[name].Sum(p => p.Percent / Pure[p.Fluid].Mass);
        var limit = 1 / Blends[name].Sum(p => p.Percent / Pure[p.Fluid].Mass / moles / Pure[p.Fluid].ExposureLimit);
        Assert.Equal(published, limit, 1.0);
        Assert.Equal(limit, Of(name).ExposureLimitPpm, 5.0);
    }

    [Theory]
    [InlineData("R-744", 5000, 9000, 1)]
    [InlineData("R-717", 100, 69.65, 0.05)]
    [InlineData("R-404A", 1000, 3992, 2)]
    [InlineData("R-22", 59000, 208600, 100)]
    [InlineData("R-134a", 50000, 208700, 100)]
    [InlineData("R-32", 36000, 76600, 100)]
    public void MilligramsPerCubicMetre_PublishedRows_Agree(string name, double ppm, double milligrams, double tolerance) =>
        Assert.Equal(milligrams, Of(name).MilligramsPerCubicMetre(ppm), tolerance);

    // 50 mg/m3 of ammonia are printed as 71.8 ppm; 0.388 kg/m3 of R-448A as 110,000 ppm.
    [Theory]
    [InlineData("R-717", 50, 71.8, 0.1)]
    [InlineData("R-448A", 388_000, 109_949, 100)]
    public void MilligramsPerCubicMetre_Inverse_GivesPublishedPpm(string name, double milligrams, double ppm, double tolerance) =>
        Assert.Equal(ppm, milligrams / Of(name).MilligramsPerCubicMetre(1), tolerance);

    // Lower flammable limits in kg/m3 and volume per cent as the Spanish RSIF (RD 552/2019, IF-02 table A) lists them.
    [Theory]
    [InlineData("R-32", 0.307, 14.43, 0.02)]
    [InlineData("R-290", 0.038, 2.11, 0.01)]
    [InlineData("R-600a", 0.043, 1.81, 0.01)]
    [InlineData("R-454C", 0.291, 7.84, 0.01)]
    [InlineData("R-455A", 0.423, 11.83, 0.01)]
    [InlineData("R-1234yf", 0.289, 6.20, 0.01)]
    [InlineData("R-1234ze(E)", 0.303, 6.50, 0.01)]
    [InlineData("R-717", 0.116, 16.65, 0.01)]
    [InlineData("R-152a", 0.130, 4.81, 0.01)]
    public void FlammableLimit_KilogramsAndPerCent_Agree(string name, double kilograms, double percent, double tolerance)
    {
        var r = Of(name);
        Assert.Equal(percent, kilograms * 1e6 / r.MilligramsPerCubicMetre(1) / 1e4, tolerance);
        Assert.Equal(percent, r.FlammableLimitPpm!.Value / 1e4, tolerance);
    }

    [Fact]
    public void Flammable_Classes_FollowTheLimit() =>
        Assert.All(Refrigerant.All, r => Assert.Equal(r.FlammableLimitPpm is not null, r.Flammable));

    [Theory]
    [InlineData("R-448A", "R-448A")]
    [InlineData("r448a", "R-448A")]
    [InlineData("448A", "R-448A")]
    [InlineData("R 404 A", "R-404A")]
    [InlineData("R1234ze", "R-1234ze(E)")]
    [InlineData("CO2", "R-744")]
    [InlineData("ammonia", "R-717")]
    [InlineData("R-999", null)]
    [InlineData("R", null)]
    [InlineData("", null)]
    [InlineData(null, null)]
    public void Find_AsPeopleWriteIt_GivesTheDesignation(string? written, string? name) => Assert.Equal(name, Refrigerant.Find(written)?.Name);
}
