using System.Globalization;

namespace StoreMap.Tests;

/// <summary>Distances as people are told them on screens.</summary>
public sealed class LengthWordsTests
{
    [Theory]
    [InlineData(LengthUnit.Foot, 0, "0 ft")]
    [InlineData(LengthUnit.Foot, 4.4, "4 ft 6 in")]
    [InlineData(LengthUnit.Foot, 13.5, "13 ft 6 in")]
    [InlineData(LengthUnit.Foot, 22.2, "22 ft")]
    [InlineData(LengthUnit.Foot, 22.25, "22 ft 6 in")]
    [InlineData(LengthUnit.Inch, 14.6, "14 ft 6 in")]
    [InlineData(LengthUnit.Metre, 14.6, "4.5 m")]
    [InlineData(LengthUnit.Millimetre, 13.1234, "4.0 m")]
    public void Of_Distance_IsToTheHalfFootOrTheDecimetre(LengthUnit unit, double feet, string told) => Assert.Equal(told, LengthWords.Of(unit, feet * LengthUnits.MetresPerFoot));

    /// <summary>A probe point's place is exact, that of its reading was kept with four decimals of a foot.</summary>
    [Fact]
    public void Of_PlaceAsKept_IsToldAsThePlaceItself()
    {
        for (var inches = 0; inches <= 720; inches++)
        {
            var metres = inches * 0.0254;
            var kept = Math.Round(LengthUnit.Foot.FromMetres(metres), 4) * LengthUnits.MetresPerFoot;
            Assert.Equal(LengthWords.Of(LengthUnit.Foot, metres), LengthWords.Of(LengthUnit.Foot, kept));
        }
    }

    /// <summary>The answer tells zones and why they are there; both stand on one screen with the point that is probed.</summary>
    [Theory]
    [InlineData(LengthUnit.Foot)]
    [InlineData(LengthUnit.Metre)]
    public void Of_AnyPlace_IsAsInTheWordsOfAZone(LengthUnit unit)
    {
        for (var metres = 0.0; metres < 20; metres += 0.05) Assert.Equal(Value(StoreMap.Zones.Say.Distance(metres, unit)), Value(LengthWords.Of(unit, metres)), 6);
    }

    private static double Value(string told)
    {
        var parts = told.Split(' ');
        return double.Parse(parts[0], CultureInfo.InvariantCulture) + (parts.Length > 2 ? 0.5 : 0);
    }
}
