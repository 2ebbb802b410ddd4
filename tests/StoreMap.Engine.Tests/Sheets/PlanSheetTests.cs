using System.Globalization;
using System.Xml.Linq;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Tests.Routing;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

public class PlanSheetTests
{
    [Fact]
    public void Draw_SchematicPlan_SaysNotToScaleAndHasNoScaleBar()
    {
        var sheet = Map(SampleStore.Make(1) with { Schematic = true })[0];
        var texts = SheetChecks.TextsOf(SheetChecks.Parse(sheet)).Select(t => t.Text).ToList();
        Assert.Contains("not to scale", texts);
        Assert.DoesNotContain(texts, t => t.StartsWith("1:", StringComparison.Ordinal) || t.Contains("(1:", StringComparison.Ordinal));
        Assert.DoesNotContain("id=\"scale-bar", sheet.Svg, StringComparison.Ordinal);
        Assert.Contains(texts, t => t.StartsWith("Not to scale:", StringComparison.Ordinal));
        SheetChecks.AllHold(sheet);
    }

    [Fact]
    public void Draw_PlanToScale_HasAScaleBar() => Assert.Contains("scale-bar", Map(SampleStore.Make(1))[0].Svg, StringComparison.Ordinal);

    [Theory]
    [MemberData(nameof(Stores))]
    public void Draw_MorePagesPromised_AreThere(int seed)
    {
        var sheets = Map(SampleStore.Make(seed));
        var first = SheetChecks.TextsOf(SheetChecks.Parse(sheets[0])).Select(t => t.Text).ToList();
        Assert.Equal(sheets.Count > 1, first.Contains(Words.English["page.more"]));
        Assert.Contains($"1 of {sheets.Count}", first);
    }

    [Theory]
    [InlineData(50)]
    [InlineData(100)]
    public void Draw_InParts_CoversThePlanAtTheScaleAskedFor(double scale)
    {
        var plan = SampleStore.Make(4) with { Units = LengthUnit.Metre };
        var visit = new SampleVisit(plan, 4);
        var sheets = HeatMapSheet.Draw(plan, visit.Net, visit.Field, visit.Located, new SheetContext { TileScale = scale });
        var parts = sheets.Where(s => s.Name.StartsWith("heat-map-", StringComparison.Ordinal) && s.Name[9..] is ['a' or 'b' or 'c' or 'd' or 'e', >= '1' and <= '9']).ToList();
        Assert.True(parts.Count >= 2);
        Assert.All(sheets, SheetChecks.AllHold);
        // Every case is named on some part, and every part says the scale.
        var named = parts.SelectMany(p => SheetChecks.TextsIn(SheetChecks.Parse(p), "labels-fixtures")).Select(t => t.Text).ToHashSet();
        Assert.All(plan.Fixtures, f => Assert.Contains(f.Tag, named));
        Assert.All(parts, p => Assert.Contains(SheetChecks.TextsOf(SheetChecks.Parse(p)), t => t.Text == "1:" + Numbers.Whole(scale)));
    }

    [Theory]
    [MemberData(nameof(Stores))]
    public void Manager_OfAnyStore_IsOnePageWithAPlaceToSign(int seed)
    {
        var plan = SampleStore.Make(seed);
        var visit = new SampleVisit(plan, seed, 6);
        foreach (var language in SheetContext.Languages)
        {
            var page = Assert.Single(ReportPages.Manager(plan, visit.Net, visit.Located, null, new SheetContext { Language = language }));
            Assert.Contains(SheetChecks.TextsOf(SheetChecks.Parse(page)), t => t.Text == Words.For(language)["report.sign-store"]);
            SheetChecks.AllHold(page);
        }
    }

    [Theory]
    [MemberData(nameof(Stores))]
    public void Cards_OneForEachLikelyZoneAndSource_CarryTheCaution(int seed)
    {
        var plan = SampleStore.Make(seed);
        var visit = new SampleVisit(plan, seed, 1 + (seed % 4));
        var sheets = ReportPages.Cards(plan, visit.Net, visit.Located, null, new SheetContext());
        var cards = sheets.Sum(s => SheetChecks.Parse(s).Descendants().Count(e => e.Attribute("class")?.Value == "repair-card"));
        // A zone of 1 in 15 is no repair to sign for; the likeliest has its card however likely.
        Assert.Equal(visit.Located.Zones.Index().Count(z => z.Index == 0 || z.Item.Probability >= 0.3) + visit.Located.Elsewhere.Count(e => e.Probability >= 0.3), cards);
        Assert.All(sheets, s => Assert.Contains(SheetChecks.TextsOf(SheetChecks.Parse(s)), t => t.Text.Contains("certified", StringComparison.Ordinal)));
        Assert.All(sheets, SheetChecks.AllHold);
        Assert.Equal((cards + 1) / 2, sheets.Count);
        // Captions of blanks are whole: what is to be written there must not be guessed.
        var german = ReportPages.Cards(plan, visit.Net, visit.Located, null, new SheetContext { Language = "de" });
        Assert.DoesNotContain(sheets.Concat(german).SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))), t => t.Text.EndsWith('…'));
    }

    [Theory]
    [MemberData(nameof(Stores))]
    public void Manager_OfAnUnlikelyLeak_AsksForNoPanel(int seed)
    {
        var plan = SampleStore.Make(seed);
        var visit = new SampleVisit(plan, seed, 6);
        var located = visit.Located with { Zones = [.. visit.Located.Zones.Select((z, i) => z with { Probability = i == 0 ? 0.95 : 0.07 })] };
        if (located.Zones.Count == 0) return;
        var text = string.Join(' ', SheetChecks.TextsOf(SheetChecks.Parse(Assert.Single(ReportPages.Manager(plan, visit.Net, located, null, new SheetContext())))).Select(t => t.Text));
        string Tag(LeakZone zone) => plan.FindFixture(zone.Fixture)!.Tag;
        if (located.Zones[0].Panels.Count > 0) Assert.Contains($"{Tag(located.Zones[0])} panel", text, StringComparison.Ordinal);
        Assert.All(located.Zones.Skip(1).Where(z => z.Fixture != located.Zones[0].Fixture), z => Assert.DoesNotContain($" {Tag(z)} panel", text, StringComparison.Ordinal));
    }

    /// <summary>The tag of a case hid half the ring of the source at its front, though it could stand elsewhere in the case. The guard is an octagon in
    /// the ring, whose sides are cos(pi/8) of its radius off.</summary>
    [Fact]
    public void Map_TagOfTheCaseUnderASource_LeavesItsRingFree()
    {
        var plan = DemoRoute.Plan;
        var visit = new SampleVisit(plan, 1, 0);
        var front = plan.FindFixture("C11")!.Front!;
        var located = visit.Located with { Zones = [], Elsewhere = [new Elsewhere("C11", 0.9, "lines overhead here", front.PointAt(front.Length / 2))] };
        var root = SheetChecks.Parse(HeatMapSheet.Draw(plan, visit.Net, visit.Field, located, new SheetContext())[0]);
        double Number(XElement e, string name) => double.Parse(e.Attribute(name)!.Value, CultureInfo.InvariantCulture);
        var ring = root.Descendants().First(e => e.Attribute("class")?.Value == "elsewhere").Elements().First(e => e.Name.LocalName == "circle");
        var (x, y, r) = (Number(ring, "cx"), Number(ring, "cy"), Number(ring, "r"));
        var tags = root.Descendants().First(e => e.Attribute("id")?.Value == "labels-fixtures").Elements().Where(e => e.Name.LocalName == "rect").ToList();
        Assert.True(tags.Count > 20);
        Assert.All(tags, tag =>
        {
            var (left, top) = (Number(tag, "x"), Number(tag, "y"));
            var (dx, dy) = (x - Math.Clamp(x, left, left + Number(tag, "width")), y - Math.Clamp(y, top, top + Number(tag, "height")));
            Assert.True(Math.Sqrt((dx * dx) + (dy * dy)) >= r * Math.Cos(Math.PI / 8), $"a tag at {left}, {top} covers the ring at {x}, {y}");
        });
    }

    /// <summary>The demo store has R-290 in its two plug-in units alone; the caution did not say where to mind sparks.</summary>
    [Fact]
    public void Map_FlammableGasInPlugInUnits_IsNamedWithThem()
    {
        var texts = Map(DemoRoute.Plan).SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s)));
        Assert.Contains(texts, t => t.Text.StartsWith("R-290 (15, 16): flammable", StringComparison.Ordinal));
    }

    public static TheoryData<int> Stores => [.. Enumerable.Range(0, 12)];

    private static IReadOnlyList<Sheet> Map(Plan plan)
    {
        var visit = new SampleVisit(plan, 1);
        return HeatMapSheet.Draw(plan, visit.Net, visit.Field, visit.Located, new SheetContext());
    }
}
