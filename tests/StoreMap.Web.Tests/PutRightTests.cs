using System.Text.Json;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>Putting right on the plan page what is drawn already.</summary>
[Collection(BrowserTests.Name)]
public sealed class PutRightTests(Chromium chromium)
{
    [Fact]
    public async Task CaseWithReadings_TakenOut_IsNotSavedUnasked()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        ILocator At(string id) => page.Locator("#" + id);
        await Floor.MakeStore(page, server.Url);
        var store = new Uri(page.Url).AbsolutePath;
        await Floor.Begin(page);
        await Floor.To(page, "1A");
        await Floor.Log(page, "7");
        await Floor.Turn(page, store + "/plan");
        foreach (var tag in new[] { "1A", "2A" })
        {
            await page.Locator("#board .thing.fixtures", new() { HasText = tag }).ClickAsync();
            await page.GetByRole(AriaRole.Button, new() { Name = "Take out" }).ClickAsync();
        }

        await At("save").ClickAsync();
        await Assertions.Expect(At("orphans")).ToContainTextAsync("1A (1 reading of 1 visit)");
        await Assertions.Expect(At("orphans")).Not.ToContainTextAsync("2A");
        await Assertions.Expect(At("plan-state")).ToHaveTextAsync("Not saved yet.");

        // Undone, nothing is asked of the case that nobody read.
        await At("undo").ClickAsync();
        await At("undo").ClickAsync();
        await page.Locator("#board .thing.fixtures", new() { HasText = "2A" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take out" }).ClickAsync();
        await At("save").ClickAsync();
        await Assertions.Expect(At("plan-state")).ToHaveTextAsync("Saved and sent.");

        await page.Locator("#board .thing.fixtures", new() { HasText = "1A" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Take out" }).ClickAsync();
        await At("save").ClickAsync();
        await At("save-all-the-same").ClickAsync();
        await Assertions.Expect(At("plan-state")).ToHaveTextAsync("Saved and sent.");
    }

    [Fact]
    public async Task Fixture_Drawn_IsGivenOtherSectionsDepthKindAndANewCircuit()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "put-right");
        var page = screens.Page;
        ILocator At(string id) => page.Locator("#" + id);
        await Plan(page, server);
        await page.Locator("#board .thing.fixtures").ClickAsync();
        await Assertions.Expect(At("fact-sections")).ToHaveValueAsync("12-12-12");
        await Assertions.Expect(At("fact-depth")).ToHaveValueAsync("3.5");
        var before = (await Ring(page)).Split(' ');

        // What can't be read is told, with what is allowed, and changes nothing.
        foreach (var wrong in new[] { "-12", "12--8", "12-twelve" })
        {
            await At("fact-sections").FillAsync(wrong);
            await At("resize").ClickAsync();
            await Assertions.Expect(At("fact-problem")).ToContainTextAsync("such as 12-12-8");
        }

        await At("fact-sections").FillAsync("12-12' 6-1/2\"-8");
        await At("fact-depth").FillAsync("3' 3\"");
        await At("resize").ClickAsync();
        await Assertions.Expect(At("fact-problem")).ToHaveCountAsync(0);
        await Assertions.Expect(At("fact-depth")).ToHaveValueAsync("3.25");
        Assert.Equal(before[0], (await Ring(page)).Split(' ')[0]);
        await At("fact-kind").SelectOptionAsync("door-case");
        await At("fact-doors").FillAsync("12");
        await At("resize").ClickAsync();

        // Words the plan has not yet: their system, and its refrigerant.
        await At("field-circuit").FillAsync("M1");
        await At("field-circuit").PressAsync("Tab");
        await At("add-circuit").ClickAsync();
        await Assertions.Expect(At("fact-problem")).ToContainTextAsync("which system");
        await At("circuit-system").FillAsync("M");
        await At("circuit-refrigerant").FillAsync("R-449A");
        await screens.Look("circuit", At("chosen"));
        await At("add-circuit").ClickAsync();
        await Assertions.Expect(At("circuit-system")).ToHaveCountAsync(0);
        await At("save").ClickAsync();
        await Assertions.Expect(At("plan-state")).ToContainTextAsync("Saved");
        await Floor.AllSent(page);

        using var layout = JsonDocument.Parse(await server.Get("/api/stores/long-row-foods/layout"));
        var fixture = layout.RootElement.GetProperty("fixtures")[0];
        Assert.Equal("[12,12.5417,8]", fixture.GetProperty("sections").GetRawText().Replace(" ", "", StringComparison.Ordinal));
        Assert.Equal(("door-case", 12, "M1"), (fixture.GetProperty("kind").GetString(), fixture.GetProperty("doors").GetInt32(), fixture.GetProperty("circuit").GetString()));
        Assert.Equal("M", layout.RootElement.GetProperty("circuits").EnumerateArray().Single(c => c.GetProperty("id").GetString() == "M1").GetProperty("system").GetString());
        Assert.Equal("R-449A", layout.RootElement.GetProperty("systems").EnumerateArray().Single(s => s.GetProperty("id").GetString() == "M").GetProperty("refrigerant").GetString());

        for (var i = 0; i < 4; i++) await At("undo").ClickAsync();
        await Assertions.Expect(At("undo")).ToBeDisabledAsync();
        Assert.Equal(before, (await Ring(page)).Split(' '));
        await Assertions.Expect(At("fact-sections")).ToHaveValueAsync("12-12-12");

        // A walk-in has a width in place of sections.
        await At("fact-kind").SelectOptionAsync("walk-in");
        await Assertions.Expect(At("fact-width")).ToHaveValueAsync("36");
        await At("fact-width").FillAsync("20' 3 1/2\"");
        await At("resize").ClickAsync();
        await Assertions.Expect(At("fact-width")).ToHaveValueAsync("20.292");
        await Assertions.Expect(At("save")).ToBeEnabledAsync();
        screens.IsQuiet();
    }

    [Fact]
    public async Task StoreSize_IsAskedWithoutAPlaceAndBeginsAsItIs()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await Plan(page, server);
        var floor = (await page.Locator("#board .floor").GetAttributeAsync("points"))!.Split(' ')[2].Split(',');
        await page.Locator("#add-what").SelectOptionAsync("store");
        await Assertions.Expect(page.Locator("#add-x")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator("#add-y")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator("#add-width")).ToHaveValueAsync(floor[0]);
        await Assertions.Expect(page.Locator("#add-height")).ToHaveValueAsync(floor[1].TrimStart('-'));
        await page.Locator("#add").ClickAsync();
        await Assertions.Expect(page.Locator("#undo")).ToBeDisabledAsync();
        await page.Locator("#add-width").FillAsync("67' 3 1/2\"");
        await page.Locator("#add").ClickAsync();
        await Assertions.Expect(page.Locator("#add-width")).ToHaveValueAsync("67.292");
        await page.Locator("#add-what").SelectOptionAsync("obstacles/shelving");
        await Assertions.Expect(page.Locator("#add-width")).ToHaveValueAsync("10");
    }

    [Fact]
    public async Task DragOrDoublePress_OnEmptyFloor_SelectsNoText()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await Plan(page, server);
        var box = (await page.Locator("#board .floor").BoundingBoxAsync())!;
        await page.Mouse.DblClickAsync(box.X + 5, box.Y + box.Height - 5);
        Assert.Equal("", await Selected(page));
        await page.Mouse.MoveAsync(box.X + 5, box.Y + box.Height - 5);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(box.X + 200, box.Y + box.Height + 60, new() { Steps = 8 });
        var selected = await Selected(page);
        await page.Mouse.UpAsync();
        Assert.Equal("", selected);
    }

    private static Task<string> Selected(IPage page) => page.EvaluateAsync<string>("() => getSelection().toString()");

    private static Task<string> Ring(IPage page) => page.Locator("#board .thing.fixtures polygon").GetAttributeAsync("points")!;

    private static async Task Plan(IPage page, ServerProcess server)
    {
        await Floor.MakeStore(page, server.Url, 1);
        await Floor.AllSent(page);
        await page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await page.Locator("#board").WaitForAsync();
    }
}
