using System.Globalization;
using System.Xml.Linq;
using StoreMap.History;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

/// <summary>The chart read back from its SVG: days and ppm in proportion, repairs where they were.</summary>
public class ScreenTrendTests
{
    private static readonly ZoneHistory Zone = new(
        "C1", 1, 2,
        [
            new ZoneVisit(new(2026, 6, 9), 12, true, false), new ZoneVisit(new(2026, 7, 7), 2, false, false, Below: true, DetectionPpm: 2),
            new ZoneVisit(new(2026, 8, 4), 40, true, false),
        ],
        ZoneChange.Recurring, null, null, "");

    [Fact]
    public void Draw_PeaksAndARepair_StandWhereTheirDaysAndPpmPutThem()
    {
        var repaired = new ServiceEntry { Finding = "F1", Date = new(2026, 6, 23), Fixture = "C1", Along = 1.5, Status = FindingStatus.Repaired };
        var record = new ServiceRecord("s", [repaired, repaired with { Finding = "F2", Fixture = "C2" }, repaired with { Finding = "F3", Date = new(2026, 5, 1) }], []);
        var svg = XDocument.Parse(ScreenTrend.Draw(Zone, record, "C1", "Peaks", 90).Svg);
        double Number(XElement e, string name) => double.Parse(e.Attribute(name)!.Value, CultureInfo.InvariantCulture);
        var points = svg.Descendants().Where(e => e.Name.LocalName == "circle").Select(e => (X: Number(e, "cx"), Y: Number(e, "cy"))).ToList();
        Assert.Equal(3, points.Count);
        Assert.Equal(points[1].X - points[0].X, points[2].X - points[1].X, 0.011); // 28 days each
        Assert.Equal((40 - 12) / (40 - 2.0), (points[0].Y - points[2].Y) / (points[1].Y - points[2].Y), 0.001);

        // 23 June is half-way between 9 June and 7 July; what was repaired elsewhere or before is not there.
        var line = Assert.Single(svg.Descendants(), e => e.Name.LocalName == "line" && e.Attribute("stroke-dasharray")?.Value == "1.6 0.8");
        Assert.Equal((points[0].X + points[1].X) / 2, Number(line, "x1"), 0.011);
        var texts = svg.Descendants().Where(e => e.Name.LocalName == "text").Select(e => e.Value).ToList();
        Assert.All(new[] { "12", "<2", "40", "repaired", "26-06-09" }, text => Assert.Contains(text, texts));
        Assert.Single(texts, "repaired");
    }

    [Fact]
    public void Draw_OfAFixture_HasItsPeaksAndEveryRepairOnIt()
    {
        var repaired = new ServiceEntry { Finding = "F1", Date = new(2026, 6, 23), Fixture = "C1", Along = 1.5, Status = FindingStatus.Repaired };
        var record = new ServiceRecord("s", [repaired, repaired with { Finding = "F2", Fixture = "C2" }, repaired with { Finding = "F3", Along = 9 }], []);
        var fixture = new FixtureHistory("C1", Zone.Visits, null);
        Assert.Equal(["F1", "F3"], ScreenTrend.Repairs(fixture, record).Select(f => f.Entry.Finding));
        Assert.Equal(["F1"], ScreenTrend.Repairs(Zone, record).Select(f => f.Entry.Finding));
        var svg = XDocument.Parse(ScreenTrend.Draw(fixture, record, "C1", "Peaks", 90).Svg);
        Assert.Equal(2, svg.Descendants().Count(e => e.Name.LocalName == "line" && e.Attribute("stroke-dasharray")?.Value == "1.6 0.8"));
        Assert.Equal(3, svg.Descendants().Count(e => e.Name.LocalName == "circle"));
    }

    [Fact]
    public void Draw_WithoutARecord_MarksNoRepair()
    {
        Assert.Empty(ScreenTrend.Repairs(Zone, null));
        Assert.DoesNotContain("repaired", ScreenTrend.Draw(Zone, null, "C1", "Peaks", 90).Svg, StringComparison.Ordinal);
    }
}
