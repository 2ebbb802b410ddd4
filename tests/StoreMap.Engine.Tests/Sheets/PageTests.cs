using StoreMap.Plans;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

public class PageTests
{
    [Theory]
    [InlineData("A1", true, 811, 574, 16, 12)]
    [InlineData("A2", true, 564, 400, 12, 8)]
    [InlineData("A3", true, 390, 277, 8, 6)]
    [InlineData("A4", false, 180, 277, 4, 6)]
    public void PageFrame_OfIsoSheets_HasTheDrawingSpaceAndGridOfIso5457(
        string name, bool landscape, double width, double height, int across, int down)
    {
        var frame = new PageFrame(PaperSize.Find(name)!, landscape);
        Assert.Equal(width, frame.Drawing.Width, 1e-9);
        Assert.Equal(height, frame.Drawing.Height, 1e-9);
        Assert.Equal((across, down), frame.GridFields);
    }

    [Fact]
    public void TitleBlock_OnEverySheet_IsAtMost180WideAndInTheLowerRightCorner() =>
        Assert.All(PaperSize.All, paper =>
        {
            var frame = new PageFrame(paper, paper != PaperSize.A4);
            Assert.True(frame.TitleBlockBox().Width <= 180);
            Assert.Equal(frame.Drawing.Right, frame.TitleBlockBox().Right, 1e-9);
            Assert.Equal(frame.Drawing.Bottom, frame.TitleBlockBox().Bottom, 1e-9);
        });

    [Fact]
    public void StandardScale_Store200By225FeetAt1To200_NeedsA2AsTheWorkedExampleSays()
    {
        double width = 200 * 0.3048, height = 225 * 0.3048;
        Assert.Equal(304.8, width * 1000 / 200, 1e-9);
        Assert.Equal(342.9, height * 1000 / 200, 1e-9);
        var smallest = new[] { PaperSize.A4, PaperSize.A3, PaperSize.A2, PaperSize.A1 }.First(paper =>
        {
            var box = new PageFrame(paper, paper != PaperSize.A4).Drawing;
            return StandardScale.Fitting(LengthUnit.Metre, height, width, box.Width, box.Height).Denominator <= 200;
        });
        Assert.Equal("A2", smallest.Name);
    }

    [Fact]
    public void StandardScale_Metric_IsTheSeriesOfIso5455()
    {
        double[] expected = [5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000];
        Assert.Equal(expected, StandardScale.For(LengthUnit.Metre).Select(s => s.Denominator));
        Assert.Equal("1:200", StandardScale.Fitting(LengthUnit.Millimetre, 60, 40, 300, 200).Text);
        Assert.Equal("1:500", StandardScale.Fitting(LengthUnit.Metre, 60.1, 40, 300, 200).Text);
    }

    [Theory]
    [InlineData("1/16\"", 192)]
    [InlineData("3/32\"", 128)]
    [InlineData("1/8\"", 96)]
    [InlineData("1/4\"", 48)]
    public void StandardScale_Architects_HaveTheKnownDenominators(string inches, double denominator) =>
        Assert.StartsWith(inches + " = 1'-0\"", StandardScale.For(LengthUnit.Foot).Single(s => s.Denominator == denominator).Text, StringComparison.Ordinal);

    [Theory]
    [InlineData(0, 3.0, 4.0)]
    [InlineData(1, 3.0, 4.0)]
    [InlineData(2, -7.0, 0.5)]
    [InlineData(3, 12.0, -9.0)]
    public void PlanToSheet_AnyTurn_IsTrueToScaleAndGoesBack(int turns, double x, double y)
    {
        var plan = new PlanToSheet(200, turns, new PlanPoint(10, 5), new SheetPoint(200, 100));
        var p = new PlanPoint(x, y);
        Assert.Equal(p.DistanceTo(new PlanPoint(10, 5)) * 5, plan.Point(p).DistanceTo(new SheetPoint(200, 100)), 1e-9);
        Assert.Equal(0, plan.Plan(plan.Point(p)).DistanceTo(p), 1e-9);
        var up = plan.Point(new PlanPoint(10, 6)) - plan.Point(new PlanPoint(10, 5));
        Assert.Equal(turns switch { 0 => new SheetPoint(0, -5), 1 => new(-5, 0), 2 => new(0, 5), _ => new(5, 0) }, new SheetPoint(Math.Round(up.X, 9), Math.Round(up.Y, 9)));
    }

    [Theory]
    [InlineData(200, 1, 60, 2, 5)]
    [InlineData(240, 0.3048, 60, 10, 4)]
    [InlineData(50, 1, 80, 1, 4)]
    public void ScaleBar_Divisions_AreRoundAndFit(double scale, double unit, double room, double division, int count) =>
        Assert.Equal((division, count), ScaleBar.Divisions(scale, unit, room));

    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(90, -1, 0)]
    [InlineData(180, 0, -1)]
    [InlineData(270, 1, 0)]
    public void NorthArrow_WhenUpIsAtABearing_PointsNorth(double bearing, double x, double y) =>
        Assert.Equal(0, NorthArrow.Direction(bearing).DistanceTo(new PlanPoint(x, y)), 1e-9);

    [Theory]
    [InlineData(LengthUnit.Foot, 8.5344, 0.1, "28'-0\"")]
    [InlineData(LengthUnit.Foot, 8.60, 0.1, "28'-3\"")]
    [InlineData(LengthUnit.Inch, 8.76, 0.5, "28'-6\"")]
    [InlineData(LengthUnit.Foot, 8.76, 2.0, "29'-0\"")]
    [InlineData(LengthUnit.Metre, 8.5344, 0.1, "8.55 m")]
    [InlineData(LengthUnit.Metre, 8.5344, 0.5, "8.5 m")]
    [InlineData(LengthUnit.Millimetre, 8.81, 1.5, "9.0 m")]
    public void Tape_NoFinerThanItsInterval_InTheUsersUnits(LengthUnit units, double metres, double uncertain, string expected) =>
        Assert.Equal(expected, Lengths.Tape(units, metres, uncertain));

    [Theory]
    [InlineData(1.234, "1.2")]
    [InlineData(0.0994, "0.099")]
    [InlineData(0.0996, "0.10")]
    [InlineData(99.7, "100")]
    [InlineData(1473, "1500")]
    [InlineData(0, "0")]
    public void TwoDigits_Rounds_ToTwoSignificantDigits(double value, string expected) => Assert.Equal(expected, Lengths.TwoDigits(value));

    /// <summary>Where no paper is named a pack is on the office papers of one kind, those of the unit that the store is measured in, in whatever unit it is drawn.</summary>
    [Theory]
    [InlineData(LengthUnit.Foot, LengthUnit.Metre, "letter", "tabloid")]
    [InlineData(LengthUnit.Inch, LengthUnit.Inch, "letter", "tabloid")]
    [InlineData(LengthUnit.Metre, LengthUnit.Foot, "A3", "A4")]
    [InlineData(LengthUnit.Millimetre, LengthUnit.Millimetre, "A3", "A4")]
    public void Pack_WithoutAPaper_IsOnPapersOfOneKind(LengthUnit measured, LengthUnit drawn, params string[] papers)
    {
        var plan = (SampleStore.Make(3) with { Units = measured }).ShownIn(drawn);
        var visit = new SampleVisit(plan, 3);
        var context = new SheetContext();
        Sheet[] sheets =
        [
            .. ReportPages.Manager(plan, visit.Net, visit.Located, null, context), .. HeatMapSheet.Draw(plan, visit.Net, visit.Field, visit.Located, context),
            .. LeakZoneSheet.Draw(plan, visit.Net, visit.Located, context), .. WalkSheet.Draw(plan, visit.Route, context), .. ReportPages.Cards(plan, visit.Net, visit.Located, null, context),
        ];
        Assert.Equal(papers, sheets.Select(s => PaperSize.All.Single(p => p.ShortMillimetres == Math.Min(s.WidthMillimetres, s.HeightMillimetres) && p.LongMillimetres == Math.Max(s.WidthMillimetres, s.HeightMillimetres)).Name).Distinct().Order(StringComparer.Ordinal));
    }
}
