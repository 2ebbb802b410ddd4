using CsCheck;

namespace StoreMap.Tests.Plans;

/// <summary>International yard and pound agreement of 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg, exactly.</summary>
public class LengthUnitTests
{
    [Fact]
    public void InMetres_YardOfEachUnit_Is0Point9144()
    {
        Assert.Equal(0.9144, 3 * LengthUnit.Foot.InMetres(), 1e-15);
        Assert.Equal(0.9144, 36 * LengthUnit.Inch.InMetres(), 1e-15);
        Assert.Equal(0.9144, 914.4 * LengthUnit.Millimetre.InMetres(), 1e-15);
        Assert.Equal(1, LengthUnit.Metre.InMetres());
        Assert.Equal(0.45359237, LengthUnits.KilogramsPerPound);
    }

    [Fact]
    public void FromSymbol_EverySymbol_ComesBack()
    {
        Assert.All(Enum.GetValues<LengthUnit>(), unit => Assert.Equal(unit, LengthUnits.FromSymbol(unit.Symbol())));
        Assert.All(new[] { "FT", "cm", "", null }, symbol => Assert.Null(LengthUnits.FromSymbol(symbol)));
    }

    [Fact]
    public void FromMetres_ThereAndBack_KeepsTheLength() => Gen.Select(Gen.Double[-1e5, 1e5], Gen.Enum<LengthUnit>()).Sample((metres, unit) =>
        Assert.Equal(metres, unit.FromMetres(metres) * unit.InMetres(), Math.Abs(metres) * 1e-15));
}
