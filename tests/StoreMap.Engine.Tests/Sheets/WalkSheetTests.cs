using System.Xml.Linq;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Tests.Routing;
using StoreMap.Walking;

namespace StoreMap.Tests.Sheets;

/// <summary>The walk sheet of the demo store.</summary>
public class WalkSheetTests
{
    private static readonly SheetContext Context = new() { PlanPaper = PaperSize.A3, TextPaper = PaperSize.A4 };

    [Fact]
    public void Draw_Demo_GivesTheIdToTypeForEveryPointOnce()
    {
        var words = WalkSheet.Draw(DemoRoute.Plan, DemoRoute.Usual, Context).Skip(1).SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text).ToList();
        Assert.All(DemoRoute.Usual.Order, id => Assert.Single(words, w => w == id));
    }

    /// <summary>Only changes were told: whoever begins did not know what the monitor is set to.</summary>
    [Theory]
    [InlineData("en", "Begin with the monitor set to {0}")]
    [InlineData("de", "Mit dem Messgerät auf {0} beginnen")]
    public void Draw_Demo_BeginsWithTheGasThatTheMonitorIsSetTo(string language, string step)
    {
        var (plan, route) = (DemoRoute.Plan, DemoRoute.Usual);
        var first = route.Order.Select(id => route.Points.First(p => p.Id == id)).First(p => p.Fixture is not null);
        var gas = plan.RefrigerantAt(plan.FindFixture(first.Fixture)!, first.Along ?? 0);
        Assert.NotNull(gas);
        var table = string.Join(' ', WalkSheet.Draw(plan, route, Context with { Language = language }).Skip(1).SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text));
        Assert.InRange(table.IndexOf(step.Replace("{0}", gas, StringComparison.Ordinal), StringComparison.Ordinal), 0, table.IndexOf(route.Order[0], StringComparison.Ordinal));
    }

    /// <summary>A number broken over two lines reads as two. Letter is the narrower paper.</summary>
    [Fact]
    public void Draw_Demo_NumbersStandWholeInTheTable()
    {
        var context = Context with { TextPaper = PaperSize.Letter };
        var words = WalkSheet.Draw(DemoRoute.Plan, DemoRoute.Usual, context).Skip(1).SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text).ToHashSet();
        Assert.True(DemoRoute.Usual.Order.Count > 100);
        Assert.All(Enumerable.Range(1, DemoRoute.Usual.Order.Count), n => Assert.Contains(n.ToString(System.Globalization.CultureInfo.InvariantCulture), words));
    }

    /// <summary>"12" is an order number or the case of that tag.</summary>
    [Fact]
    public void Draw_Demo_OrderNumbersHaveTheWalksColourAndTagsDoNot()
    {
        Sheet[] plans = [WalkSheet.Draw(DemoRoute.Plan, DemoRoute.Usual, Context)[0], ScreenMap.DrawWalk(DemoRoute.Plan, DemoRoute.Usual, new ScreenOptions()).Sheet];
        Assert.All(plans, sheet =>
        {
            var parsed = SheetChecks.Parse(sheet);
            string[] FillsIn(string layer) => [.. parsed.Descendants().Where(e => (string?)e.Attribute("id") == layer).Descendants().Where(e => e.Name.LocalName == "text").Select(e => (string?)e.Attribute("fill") ?? "").Distinct()];
            var tags = FillsIn("labels-fixtures");
            Assert.NotEmpty(tags);
            Assert.Equal([SheetStyle.WalkInk], FillsIn("labels-points"));
            Assert.DoesNotContain(SheetStyle.WalkInk, tags);
        });
    }

    [Theory]
    [InlineData("06:00", "14:00", "03:45", "Wait until 06:00")]
    [InlineData("06:00", "14:00", "22:00", "Agree it with the store first")]
    public void Draw_RoomWithHours_SaysThemAndWhatToDo(string from, string to, string begin, string step)
    {
        static TimeOnly Time(string text) => TimeOnly.ParseExact(text, "HH:mm", null);
        var plan = DemoRoute.Plan with { Rooms = [.. DemoRoute.Plan.Rooms.Select(r => r.Id == "R1" ? r with { Entry = [(Time(from), Time(to))] } : r)] };
        var route = RoutePlanner.Plan(plan, DemoRoute.Paths, DemoRoute.Draft, DemoRoute.Request with { Begin = Time(begin) });
        var text = WalkSheet.Draw(plan, route, Context).Select(s => string.Join(' ', SheetChecks.TextsOf(SheetChecks.Parse(s)).Select(t => t.Text))).ToList();
        Assert.Contains("Enter only: Bakery 06:00 to 14:00.", text[0]);
        Assert.Contains(text.Skip(1), t => t.Contains(step, StringComparison.Ordinal));
    }
}
