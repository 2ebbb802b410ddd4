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

    /// <summary>Dichromacy after Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color vision deficiency"
    /// (IEEE TVCG 15, 2009), severity 1, on linear light; rows add up to 1.</summary>
    public static TheoryData<string, double[]> Visions => new()
    {
        { "protanopia", [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998] },
        { "deuteranopia", [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940, 0.968881] },
        { "tritanopia", [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.303900] },
        { "grey print", [0.2126, 0.7152, 0.0722, 0.2126, 0.7152, 0.0722, 0.2126, 0.7152, 0.0722] },
    };

    [Theory]
    [MemberData(nameof(Visions))]
    public void Scale_ToEveryVisionAndInGreyPrint_KeepsItsOrderWithVisibleSteps(string vision, double[] matrix)
    {
        Assert.NotEmpty(vision);
        Assert.All(Enumerable.Range(0, 3), row => Assert.Equal(1, matrix[row * 3] + matrix[(row * 3) + 1] + matrix[(row * 3) + 2], 1e-3));
        foreach (var kind in new[] { ColourMapKind.Cividis, ColourMapKind.Viridis })
        {
            foreach (var highest in new[] { 3.0, 40, 900, 20000 })
            {
                var scale = new ConcentrationScale(1, 2, highest, kind);
                var light = Enumerable.Range(0, scale.Levels.Count).Select(i => Lightness(Seen(scale.ColourOf(i), matrix))).ToList();
                // More gas is darker; neighbours differ by 4 in CIE lightness (about 1 is just seen side by side).
                Assert.All(light.Zip(light.Skip(1)), pair => Assert.True(pair.First - pair.Second > 4, $"{vision} {kind} {highest}: {pair}"));
                // The lightest band stands off from paper and from probed floor.
                Assert.True(Lightness(Seen(Colour.Parse(SheetStyle.Probed), matrix)) - light[0] > 4);
            }
        }
    }

    [Theory]
    [InlineData(SheetStyle.WarningYellow)]
    [InlineData(SheetStyle.ProhibitionRed)]
    [InlineData(SheetStyle.MandatoryBlue)]
    public void Scale_OfTheDefaultMap_KeepsClearOfTheSafetyColours(string safety)
    {
        var levels = Enumerable.Range(0, 93).Select(i => ColourMap.At(ColourMapKind.Cividis, i / 100.0));
        Assert.All(levels, c => Assert.True(Distance(c, Colour.Parse(safety)) > 10, $"{c.Hex} {safety} {Distance(c, Colour.Parse(safety))}"));
    }

    private static double[] Linear(Colour c) => [.. new[] { c.R, c.G, c.B }.Select(v => v / 255.0).Select(v => v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4))];

    private static double[] Seen(Colour c, double[] m)
    {
        var l = Linear(c);
        return [.. Enumerable.Range(0, 3).Select(r => Math.Clamp((m[r * 3] * l[0]) + (m[(r * 3) + 1] * l[1]) + (m[(r * 3) + 2] * l[2]), 0, 1))];
    }

    private static double Lightness(double[] linear) => (116 * Curve((0.2126 * linear[0]) + (0.7152 * linear[1]) + (0.0722 * linear[2]))) - 16;

    private static double Curve(double t) => t > 0.008856 ? Math.Cbrt(t) : (7.787 * t) + (16.0 / 116);

    /// <summary>CIE 1976 colour difference under D65.</summary>
    private static double Distance(Colour a, Colour b)
    {
        static double[] Lab(Colour c)
        {
            var l = Linear(c);
            double x = Curve(((0.4124 * l[0]) + (0.3576 * l[1]) + (0.1805 * l[2])) / 0.9505), y = Curve((0.2126 * l[0]) + (0.7152 * l[1]) + (0.0722 * l[2])), z = Curve(((0.0193 * l[0]) + (0.1192 * l[1]) + (0.9505 * l[2])) / 1.089);
            return [(116 * y) - 16, 500 * (x - y), 200 * (y - z)];
        }

        return Math.Sqrt(Lab(a).Zip(Lab(b), (p, q) => (p - q) * (p - q)).Sum());
    }
}
