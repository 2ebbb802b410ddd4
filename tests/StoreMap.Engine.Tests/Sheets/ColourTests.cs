using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

public class ColourTests
{
    [Theory]
    [InlineData("#000000", "#ffffff", 21.00)]
    [InlineData("#767676", "#ffffff", 4.54)]
    [InlineData("#777777", "#ffffff", 4.48)]
    [InlineData("#21918c", "#ffffff", 3.82)]
    [InlineData("#440154", "#ffffff", 15.24)]
    [InlineData("#fde725", "#ffffff", 1.26)]
    public void Contrast_OfPairs_AgreesWithWcag22Definition(string a, string b, double expected) =>
        Assert.Equal(expected, Colour.Contrast(Colour.Parse(a), Colour.Parse(b)), 0.01);

    [Theory]
    [InlineData(0, "#440154")]
    [InlineData(64, "#3b528b")]
    [InlineData(128, "#21918c")]
    [InlineData(192, "#5ec962")]
    [InlineData(255, "#fde725")]
    public void Viridis_AtIndex_IsThePublishedColour(int index, string expected) =>
        Assert.Equal(expected, ColourMap.At(ColourMapKind.Viridis, index / 255.0).Hex);

    [Theory]
    [InlineData(0.0, 0, 32, 81)]
    [InlineData(0.5, 127, 124, 117)]
    [InlineData(1.0, 253, 234, 69)]
    public void Cividis_AtPlace_IsThePublishedPolynomial(double t, byte r, byte g, byte b) =>
        Assert.Equal(new Colour(r, g, b), ColourMap.At(ColourMapKind.Cividis, t));

    [Theory]
    [InlineData(ColourMapKind.Cividis)]
    [InlineData(ColourMapKind.Viridis)]
    public void At_AlongTheMap_LuminanceRises(ColourMapKind kind)
    {
        var luminance = Enumerable.Range(0, 33).Select(i => ColourMap.At(kind, i / 32.0).Luminance).ToList();
        Assert.All(luminance.Zip(luminance.Skip(1)), pair => Assert.True(pair.Second > pair.First));
    }

    [Theory]
    [InlineData(SheetStyle.Ink)]
    [InlineData(SheetStyle.Muted)]
    public void TextInks_OnEveryGroundTextStandsOn_HaveTheContrastOfWcag143(string ink)
    {
        string[] grounds = [SheetStyle.Paper, SheetStyle.Probed, SheetStyle.ObstacleFill, SheetStyle.RoomFill, SheetStyle.FixtureFill];
        Assert.All(grounds, ground => Assert.True(Colour.Contrast(Colour.Parse(ink), Colour.Parse(ground)) >= 4.5, ground));
    }
}
