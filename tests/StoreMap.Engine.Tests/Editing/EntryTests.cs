using StoreMap.Editing;

namespace StoreMap.Tests.Editing;

/// <summary>Lengths as typed, and points as placed.</summary>
public class EntryTests
{
    [Theory]
    [InlineData("12", 12)]
    [InlineData("12' 6\"", 12.5)]
    [InlineData("12'6", 12.5)]
    [InlineData("12 ft 6 in", 12.5)]
    [InlineData("6 in", 0.5)]
    [InlineData("-3' 3\"", -3.25)]
    [InlineData("3.048 m", 10)]
    [InlineData("3,048 m", 10)]
    [InlineData("304.8 cm", 10)]
    [InlineData("67' 3 1/2\"", 67.291667)]
    [InlineData("3 1/2\"", 0.291667)]
    [InlineData("1/2\"", 0.041667)]
    [InlineData("12' 6-1/2\"", 12.541667)]
    [InlineData("12'6 1/2", 12.541667)]
    [InlineData("12'-6\"", 12.5)]
    [InlineData("12 ft - 6 1/2 in", 12.541667)]
    [InlineData("6 ft 3 1/2 in", 6.291667)]
    [InlineData("6’ 3 3/4”", 6.3125)]
    [InlineData("-3 1/2\"", -0.291667)]
    public void Parse_OfFeet_ReadsWhatPeopleType(string text, double feet) => Assert.Equal(feet, LengthEntry.Parse(text, LengthUnit.Foot)!.Value, 6);

    [Theory]
    [InlineData("2.5", 2.5)]
    [InlineData("10 ft", 3.048)]
    [InlineData("250 cm", 2.5)]
    public void Parse_OfMetres_ReadsWhatPeopleType(string text, double metres) => Assert.Equal(metres, LengthEntry.Parse(text, LengthUnit.Metre)!.Value, 6);

    [Theory]
    [InlineData("")]
    [InlineData("twelve")]
    [InlineData("12 6")]
    [InlineData("1e9")]
    [InlineData("12-12-8")]
    [InlineData("60-6")]
    [InlineData("60-6\"")]
    [InlineData("3 1/2")]
    [InlineData("3 2/2\"")]
    [InlineData("3 1/0\"")]
    [InlineData("3 1/\"")]
    public void Parse_OfNoLength_GivesNothing(string text) => Assert.Null(LengthEntry.Parse(text, LengthUnit.Foot));

    [Theory]
    [InlineData("12-12-8", "12|12|8")]
    [InlineData("60-6", "60|6")]
    [InlineData("12'6\"-8'", "12'6\"|8'")]
    [InlineData("12' 6-1/2\"-8' + 3 1/2\"", "12' 6-1/2\"|8'|3 1/2\"")]
    [InlineData("12'-6\"-8'", "12'-6\"|8'")]
    [InlineData("12'-8'-6", "12'|8'|6")]
    [InlineData("12-6-1/2\"", "12|6-1/2\"")]
    [InlineData("3,66 m–2,44", "3.66 m|2.44")]
    [InlineData("-12", null)]
    [InlineData("12--8", null)]
    [InlineData("12-", null)]
    [InlineData("12 8", null)]
    [InlineData("12-twelve", null)]
    [InlineData("", null)]
    public void Sections_OfALine_ArePartedOrRefused(string text, string? parts) => Assert.Equal(parts?.Split('|'), LengthEntry.Sections(text));

    [Fact]
    public void Point_NearAnEnd_GoesToTheEndBeforeTheGrid() => Assert.Equal(new Snapped(10.3, 7.2, true), Snap.Point(10.1, 7, [(10.3, 7.2), (4, 4)], 0.5, 1));

    [Fact]
    public void Point_NearNothing_GoesToTheGridAndInLineWhereItCan() => Assert.Equal(new Snapped(4.2, 9, false), Snap.Point(4, 9.3, [(4.2, 1)], 0.5, 1));

    [Fact]
    public void Box_LetGoNearALine_MovesItsNearerSideOntoIt() => Assert.Equal((0.2, 0), Rounded(Snap.Box((1.1, 2, 4.8, 3), [(5, 9)], 0.5, 1)));

    private static (double, double) Rounded((double X, double Y) p) => (Math.Round(p.X, 9), Math.Round(p.Y, 9));
}
