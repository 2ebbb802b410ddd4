using SkiaSharp;
using StoreMap.Sheets;

namespace StoreMap.Tests.Raster;

public class TextMeasureTests
{
    // Skia rounds advances to 1/64 of a unit at this size; the engine sums the face's own numbers.
    private const float Size = 1000;
    private const double RelativeTolerance = 1e-4;

    [Theory]
    [InlineData("Fresh meat 27A", false)]
    [InlineData("0123456789 ≥ 1000 ppm", false)]
    [InlineData("Kühlregal – Fleisch, 12'-6\"", true)]
    [InlineData("WAVE Type…", true)]
    public void WidthOf_Text_AgreesWithSkiasAdvances(string text, bool bold)
    {
        using var font = new SKFont(StoreMap.Raster.CarriedTypefaces.Face(bold), Size) { Hinting = SKFontHinting.None, Subpixel = true };
        var expected = font.MeasureText(text) / Size;
        var style = new TextStyle(1, bold);
        Assert.Equal(1, style.WidthOf(text) / style.FontSize / expected, RelativeTolerance);
    }
}
