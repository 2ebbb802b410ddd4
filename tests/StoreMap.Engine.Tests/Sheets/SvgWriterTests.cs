using System.Xml.Linq;
using CsCheck;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

public class SvgWriterTests
{
    [Fact]
    public void Finish_AfterDrawing_IsWellFormedInMillimetresWithPointsForDecimals()
    {
        var svg = new SvgWriter(420, 297, "T & <1>", "d", "en");
        svg.Begin("27A front", "fixture", "A \"b\"");
        svg.Line(new(1.006, 2.5), new(-0.001, 3), Paint.Line(0.25));
        svg.Text(new(10.126, 20), "1 < 2 & \u0001", SheetStyle.Small);
        svg.End();
        var root = XDocument.Parse(svg.Finish()).Root!;
        Assert.Equal("420mm", root.Attribute("width")!.Value);
        Assert.Equal("0 0 420 297", root.Attribute("viewBox")!.Value);
        Assert.Equal("T & <1>", root.Elements().First().Value);
        var line = root.Descendants().Single(e => e.Name.LocalName == "line");
        Assert.Equal("0", line.Attribute("x2")!.Value);
        Assert.Equal("1.01", line.Attribute("x1")!.Value);
        Assert.Equal("id-27A-front", line.Parent!.Attribute("id")!.Value);
        Assert.Equal("10.13", root.Descendants().Single(e => e.Name.LocalName == "text").Attribute("x")!.Value);
    }

    [Fact]
    public void Begin_SameIdTwice_StaysUnique()
    {
        var svg = new SvgWriter(10, 10, "t", "d", "en");
        for (var i = 0; i < 3; i++)
        {
            svg.Begin("a");
            svg.End();
        }

        var ids = XDocument.Parse(svg.Finish()).Descendants().Select(e => e.Attribute("id")?.Value).OfType<string>().ToList();
        Assert.Equal(["a", "a-2", "a-3"], ids);
    }

    [Fact]
    public void Text_AnyCharacters_ComesBackOrIsReplaced() =>
        Gen.String.Sample(text =>
        {
            var svg = new SvgWriter(10, 10, "t", text, "en");
            svg.Text(new(1, 1), "x" + text, SheetStyle.Small);
            var document = XDocument.Parse(svg.Finish());
            Assert.Equal(2, document.Root!.Elements().Count(e => e.Name.LocalName is "desc" or "text"));
            Assert.DoesNotContain('\r', svg.Finish());
        });

    [Theory]
    [InlineData(0, "0")]
    [InlineData(-0.004, "0")]
    [InlineData(-0.006, "-0.01")]
    [InlineData(12.3456, "12.35")]
    [InlineData(1234567.5, "1234567.5")]
    public void Coordinate_Rounds_ToHundredths(double value, string expected) => Assert.Equal(expected, Numbers.Coordinate(value));

    [Theory]
    [InlineData(0.96, "1")]
    [InlineData(3.25, "3.3")]
    [InlineData(3.0, "3")]
    [InlineData(9.96, "10")]
    [InlineData(12.6, "13")]
    [InlineData(-0.04, "0")]
    [InlineData(1000, "1000")]
    public void Ppm_Prints_OneDecimalBelowTen(double value, string expected) => Assert.Equal(expected, Numbers.Ppm(value));
}
