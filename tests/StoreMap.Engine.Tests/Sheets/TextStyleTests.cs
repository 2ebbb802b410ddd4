using CsCheck;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

public class TextStyleTests
{
    // Inter 4: 2048 units to the em in this build; a text height of 2.5 mm is that of the capitals.
    [Fact]
    public void Faces_AreCarried_WithLatinDigitsAndSigns()
    {
        foreach (var face in new[] { Faces.Regular, Faces.SemiBold })
        {
            Assert.All("AZaz09 ≥≤±·–—…°²³µ→×½¼✓'\"″′äöüßéñ".EnumerateRunes(), rune => Assert.True(face.Has(rune.Value), rune.ToString()));
            Assert.False(face.Has(0x4E2D));
            Assert.InRange(face.CapHeight, 0.70, 0.75);
        }
    }

    [Fact]
    public void FontSize_OfATextHeight_MakesCapitalsThatHigh() =>
        Assert.Equal(2.5, new TextStyle(2.5).FontSize * Faces.Regular.CapHeight, 1e-12);

    [Fact]
    public void Wrap_AnyText_KeepsEveryLetterAndNoLineIsTooWide() =>
        Gen.Select(Gen.String[Gen.Char["abcdefgh iWM.-"], 0, 200], Gen.Double[8, 60]).Sample((text, width) =>
        {
            var lines = SheetStyle.Small.Wrap(text, width);
            Assert.Equal(text.Replace(" ", ""), string.Concat(lines).Replace(" ", ""));
            Assert.All(lines, line => Assert.True(line.Length <= 1 || SheetStyle.Small.WidthOf(line) <= width));
        });

    [Fact]
    public void Fit_TextTooWide_EndsInAnEllipsisAndFits()
    {
        var fitted = SheetStyle.Small.Fit("Fresh meat and seafood, island with pit", 30);
        Assert.EndsWith("…", fitted, StringComparison.Ordinal);
        Assert.True(SheetStyle.Small.WidthOf(fitted) <= 30);
        Assert.Equal("Short", SheetStyle.Small.Fit("Short", 30));
    }
}
