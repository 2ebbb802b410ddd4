using System.Xml.Linq;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Tests.Routing;

namespace StoreMap.Tests.Sheets;

/// <summary>Readings at one place on a plan, and the numbers of panels among the tags of cases.</summary>
public class ReadingsPassTests
{
    [Theory]
    [InlineData(2, "en", "29 & 17")]
    [InlineData(3, "en", "29 & 17 & 7.2")]
    [InlineData(4, "en", "29 & 17 & 7.2 and 1 more")]
    [InlineData(6, "en", "29 & 17 & 7.2 and 3 more")]
    [InlineData(6, "de", "29 & 17 & 7.2 und 3 weitere")]
    public void Label_OfReadingsAtOnePlace_CountsThoseThatItLeavesOut(int count, string language, string text)
    {
        double[] levels = [29, 17, 7.2, 6.1, 5.4, 4.8];
        var front = DemoRoute.Plan.FindFixture("C3")!.Front!;
        var place = new ReadingPlace { Fixture = "C3", Along = 2, At = front.PointAt(2) };
        List<NetReading> readings =
        [
            .. levels.Take(count).Select((ppm, i) => new NetReading
            {
                Reading = new Reading { Time = JournalVisit.Start.AddMinutes(i), Ppm = ppm, Place = place, Spot = Spot.Front, Height = ProbeHeight.Mid },
                BackgroundPpm = 0, NetPpm = ppm, DeviationPpm = 0.4, Bound = ReadingBound.Exact, DetectionPpm = 1, ActionPpm = 2,
            }),
        ];
        var net = new NetSurvey(new Survey { Store = "s", Start = JournalVisit.Start, Instruments = [], Readings = [.. readings.Select(r => r.Reading)] }, readings, [], []);
        var picture = ScreenMap.Draw(DemoRoute.Plan, new ScreenVisit(net, null, null), new ScreenOptions { Layers = ScreenLayers.Readings, Language = language });
        Assert.Equal([text], SheetChecks.TextsIn(SheetChecks.Parse(picture.Sheet), "labels-readings").Select(t => t.Text));
    }

    [Fact]
    public void Numbers_OfPanelsToLift_StandInDiscsAndTagsInBoxes()
    {
        var study = DemoStudy.Study.Value;
        var picture = ScreenMap.Draw(DemoRoute.Plan, new ScreenVisit(study.Visit, null, study.Result), new ScreenOptions { Layers = ScreenLayers.Panels });
        var parsed = SheetChecks.Parse(picture.Sheet);
        double[] CornersIn(string layer) => [.. parsed.Descendants().Where(e => (string?)e.Attribute("id") == layer).Descendants().Where(e => e.Name.LocalName == "rect").Select(e => (double)e.Attribute("rx")! / (double)e.Attribute("height")!)];
        Assert.NotEmpty(CornersIn("labels-panels"));
        Assert.All(CornersIn("labels-panels"), round => Assert.Equal(0.5, round, 0.01));
        Assert.All(CornersIn("labels-fixtures"), round => Assert.True(round < 0.25));
    }
}
