using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The walk, planned and put in another order on every size of screen.</summary>
[Collection(BrowserTests.Name)]
public sealed class WalkTests(Chromium chromium)
{
    [Fact]
    public async Task Walk_InEverySize_IsPlannedReorderedKeptAndDrawn()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "walk");
        var page = screens.Page;
        await Floor.MakeStore(page, server.Url);
        await page.GetByRole(AriaRole.Link, new() { Name = "Walk", Exact = true }).ClickAsync();
        var stops = page.Locator(".stops li .what");
        await stops.First.WaitForAsync();
        var planned = await stops.AllInnerTextsAsync();
        Assert.True(planned.Count > 3, $"only {planned.Count} stops");
        var rest = planned.Skip(3).ToList();
        var drawn = await AllDrawn(page, planned);
        // Points of the second and of the third stop.
        var (second, third) = (Points(planned[0])..Points(planned[0], planned[1]), Points(planned[0], planned[1])..Points(planned[0], planned[1], planned[2]));
        List<string> moved = [.. drawn[..second.Start], .. drawn[third], .. drawn[second], .. drawn[third.End..]];
        foreach (var (size, width, height) in Screens.Sizes)
        {
            await page.SetViewportSizeAsync(width, height);
            await page.Locator("#replan").ClickAsync();
            await Assertions.Expect(page.Locator(".work progress")).ToHaveCountAsync(0);
            await Assertions.Expect(stops).ToHaveTextAsync(planned);

            // The third stop goes before the second, and the way is drawn in the new order.
            await page.Locator(".stops .earlier").Nth(2).ClickAsync();
            await Assertions.Expect(stops).ToHaveTextAsync([planned[0], planned[2], planned[1], .. rest]);
            await Wait.Equal(moved, () => Drawn(page));

            // Kept there it stays when the others are planned anew.
            await page.Locator(".stops .pin").Nth(1).ClickAsync();
            await page.Locator(".stops .later").Nth(2).ClickAsync();
            await Assertions.Expect(stops).ToHaveTextAsync([planned[0], planned[2], rest[0], planned[1], .. rest.Skip(1)]);
            await page.Locator("#replan").ClickAsync();
            await Assertions.Expect(stops).ToHaveTextAsync([planned[0], planned[2], planned[1], .. rest]);
            Assert.True(await page.Locator(".stops button").EvaluateAllAsync<bool>("all => all.every(b => b.offsetHeight >= 24 && b.offsetWidth >= 24)"), $"a button is too small to press on a {size}");
            await page.Locator(".stops .pin").Nth(1).ClickAsync();
            await Assertions.Expect(page.Locator(".stops .pin[aria-pressed=true]")).ToHaveCountAsync(0);
        }

        await screens.Look("stops");
        await page.Locator("#walk-sheets").ClickAsync();
        await page.Locator("figure.sheet").First.WaitForAsync();
        await screens.Look("sheets");
        screens.IsQuiet();
    }

    /// <summary>It could be dragged to any place; what is read before it is of no use.</summary>
    [Fact]
    public async Task Zero_DraggedOrPassedByAnother_StaysFirstAndTellsWhy()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "zero");
        var page = screens.Page;
        await page.SetViewportSizeAsync(1280, 1600);
        await Floor.MakeStore(page, server.Url);
        await page.GetByRole(AriaRole.Link, new() { Name = "Walk", Exact = true }).ClickAsync();
        var stops = page.Locator(".stops li .what");
        await stops.First.WaitForAsync();
        var planned = await stops.AllInnerTextsAsync();
        Assert.StartsWith("Zero", planned[0], StringComparison.Ordinal);
        await AllDrawn(page, planned);
        await page.Locator(".stops li").Nth(0).DragToAsync(page.Locator(".stops li").Nth(2));
        await Assertions.Expect(page.Locator("#zero-first")).ToContainTextAsync("The zero stays first: readings taken before");
        await Assertions.Expect(stops).ToHaveTextAsync(planned);
        await page.Locator(".stops .later").Nth(1).ClickAsync();
        await Assertions.Expect(page.Locator("#zero-first")).ToHaveCountAsync(0);
        await page.Locator(".stops .earlier").Nth(1).ClickAsync();
        await Assertions.Expect(page.Locator("#zero-first")).ToBeVisibleAsync();
        await Assertions.Expect(stops).ToHaveTextAsync([planned[0], planned[2], planned[1], .. planned.Skip(3)]);
        await screens.Look("told");
        screens.IsQuiet();
    }

    [Fact]
    public async Task Walk_UnderWay_IsPlannedAnewFromWhereOneStandsAndHasItsClock()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "underway");
        var page = screens.Page;
        await Floor.MakeStore(page, server.Url);
        await Floor.AllSent(page);
        var store = page.Url;
        await Floor.Turn(page, store + "/route");
        var stops = page.Locator(".stops li .what");
        await stops.First.WaitForAsync();
        var planned = await stops.AllInnerTextsAsync();
        var whole = await AllDrawn(page, planned);
        await Assertions.Expect(page.Locator(".work")).ToContainTextAsync($"{whole.Length} points");

        // Two points are read; the rest is planned from the last stop, which comes next, and nothing is lost.
        await Floor.Turn(page, store);
        await Floor.Begin(page);
        for (var i = 0; i < 2; i++) await Floor.Log(page, "1");
        await Floor.Turn(page, store + "/route");
        await Assertions.Expect(page.Locator(".hint")).ToContainTextAsync("2 points done");
        await page.Locator(".stops .from").Last.ClickAsync();
        await Assertions.Expect(page.Locator(".work")).ToContainTextAsync(new Regex($"^After that stop: {whole.Length - 2 - Points(planned[^1])} points"));
        var after = await Wait.Until(() => Drawn(page), now => now.Count == whole.Length && !now.SequenceEqual(whole));
        Assert.Equal(whole.Order(), after.Order());
        Assert.Equal(whole.Take(2), after.Take(2));
        var last = planned[^1].Split('\n')[0];
        await Assertions.Expect(stops.Filter(new() { HasNotText = "done" }).First).ToContainTextAsync(last.Split(' ')[0]);

        // With a time to begin the walk has a clock, on the screen and on its sheet.
        await page.Locator("#begin-at").FillAsync("05:30");
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(page.Locator(".clock-line").First).ToContainTextAsync("Begun at 05:30, all is written up about ");
        await Assertions.Expect(stops.First).ToContainTextAsync(" · 05:");
        await screens.Look("clock");
        await page.Locator("#walk-sheets").ClickAsync();
        await Assertions.Expect(page.Locator("figure.sheet .paper").First).ToContainTextAsync("05:30");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#begin-at")).ToHaveValueAsync("05:30");
        await Wait.Equal(after, () => Drawn(page));
        screens.IsQuiet();
    }

    [Fact]
    public async Task Sheets_InTheLanguageKeptOnTheDevice_AreDrawnInIt()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "language");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await Floor.AllSent(page);
        var store = page.Url;
        await Floor.Turn(page, $"{server.Url}/device");
        await page.Locator("#language").SelectOptionAsync("de");
        await page.Locator("#company").FillAsync("Heron Cold Service");
        await page.Keyboard.PressAsync("Tab");
        await Floor.IsKept(page, "meta", "device", "d => d.language === 'de' && d.company === 'Heron Cold Service'");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#language")).ToHaveValueAsync("de");
        await Assertions.Expect(page.Locator("#company")).ToHaveValueAsync("Heron Cold Service");
        await screens.Look("device");
        await Floor.Turn(page, store + "/route");
        await page.Locator("#walk-sheets:enabled").ClickAsync();
        await Assertions.Expect(page.Locator("figure.sheet .paper").First).ToHaveAttributeAsync("aria-label", "Laufblatt, Lark Lane Stores");
        await Assertions.Expect(page.Locator("figure.sheet .paper").First).ToContainTextAsync("Heron Cold Service");

        // The report begins with them, and what is chosen there is kept as well.
        await Floor.Turn(page, store + "/report");
        await Assertions.Expect(page.Locator("#language")).ToHaveValueAsync("de");
        await Assertions.Expect(page.Locator("#company")).ToHaveValueAsync("Heron Cold Service");
        await page.Locator("#language").SelectOptionAsync("en");
        foreach (var part in new[] { "Manager", "HeatMap", "Details", "Comparison", "Record" }) await page.Locator($"#part-{part}").UncheckAsync();
        await page.Locator("#draw").ClickAsync();
        await page.Locator("figure.sheet").First.WaitForAsync();
        await Floor.Turn(page, $"{server.Url}/device");
        await Assertions.Expect(page.Locator("#language")).ToHaveValueAsync("en");
        screens.IsQuiet();
    }

    /// <summary>One room drawn without its door refused the walk through the whole store.</summary>
    [Fact]
    public async Task Walk_WithARoomNobodyCanEnter_GoesOnAndListsWhatIsLeftOut()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "left-out");
        var page = screens.Page;
        await page.GotoAsync(server.Url);
        var layout = JsonNode.Parse(await File.ReadAllTextAsync(Desk.Sample("small.layout.json"), TestContext.Current.CancellationToken))!;
        layout["rooms"]![0]!["openings"] = new JsonArray();
        await page.Locator("#layout-open").SetInputFilesAsync(new FilePayload { Name = "shut.layout.json", MimeType = "application/json", Buffer = System.Text.Encoding.UTF8.GetBytes(layout.ToJsonString()) });
        await page.Locator("#begin").WaitForAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Walk", Exact = true }).ClickAsync();
        await page.Locator("ol.stops li").First.WaitForAsync();
        await Assertions.Expect(page.Locator("#left-out li")).ToHaveTextAsync("Prep air: 1 point");
        await Assertions.Expect(page.Locator(".notice.warn")).ToHaveCountAsync(0);
        var drawn = await Drawn(page);
        Assert.DoesNotContain("point-B-R1", drawn);
        Assert.True(drawn.Count > 10, $"only {drawn.Count} points are walked");
        await screens.Look("list");
        await page.Locator("#walk-sheets").ClickAsync();
        await Assertions.Expect(page.Locator("figure.sheet .paper").First).ToContainTextAsync("Not reachable");
        screens.IsQuiet();
    }

    private static int Points(params IEnumerable<string> stops) => stops.Sum(s => int.Parse(Regex.Match(s, @"(\d+) points?").Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture));

    // Once the picture has the points of all stops.
    private static async Task<string[]> AllDrawn(IPage page, IReadOnlyList<string> stops)
    {
        await Assertions.Expect(page.Locator("#walk g.probe-point")).ToHaveCountAsync(Points(stops));
        return [.. await Drawn(page)];
    }

    /// <summary>Points of the walk in the order in which they are drawn.</summary>
    internal static async Task<IReadOnlyList<string>> Drawn(IPage page) => await page.Locator("#walk g.probe-point").EvaluateAllAsync<string[]>("all => all.map(g => g.id)");
}
