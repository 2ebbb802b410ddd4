using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What a technician takes back or sets right on the floor.</summary>
[Collection(BrowserTests.Name)]
public sealed class SecondThoughtsTests(Chromium chromium)
{
    [Fact]
    public async Task TakenBack_ReadingOrSkipOrCloserPoints_LeadsBackToWhereItWasMade()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Begun(page, server.Url);
        var (spot, saved, undo) = (page.Locator("#spot"), page.Locator("#saved"), page.Locator("#undo"));

        var before = await spot.InnerTextAsync();
        await Floor.Log(page, "94");
        await undo.ClickAsync();
        await Assertions.Expect(spot).ToHaveTextAsync(before);
        await Assertions.Expect(saved).ToContainTextAsync("94 ppm. It stays in the journal");
        await Assertions.Expect(undo).ToHaveCountAsync(0);
        await Floor.IsDone(page, 2);
        await Floor.Log(page, "9");

        // Closer points, and nothing else, are taken back.
        before = await spot.InnerTextAsync();
        await page.Locator("details.more > summary").ClickAsync();
        await page.Locator("#closer").ClickAsync();
        await Assertions.Expect(saved).ToContainTextAsync("Closer points added");
        await undo.ClickAsync();
        await Assertions.Expect(spot).ToHaveTextAsync(before);
        await Floor.IsDone(page, 3);
        await page.Locator("#skip").ClickAsync();
        await Assertions.Expect(spot).Not.ToHaveTextAsync(before);
        await undo.ClickAsync();
        await Assertions.Expect(spot).ToHaveTextAsync(before);

        await page.Locator("#tab-end").ClickAsync();
        await page.GetByText("entries").ClickAsync();
        var lines = string.Join('\n', await page.Locator(".journal li").AllInnerTextsAsync());
        Assert.Matches(@"taken back \(taken back at once\): 1A, .* ft from the left .*: 94 ppm", lines);
        Assert.Matches(@"taken back \(taken back at once\): closer points at 1A", lines);
        Assert.Matches(@"taken back \(taken back at once\): 1A, .*: skipped", lines);
        Assert.Matches("begun by Ada Brook", lines);
    }

    [Fact]
    public async Task StopWork_ByAMistypedNumber_IsTakenBackWithIt()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Begun(page, server.Url);
        var spot = await page.Locator("#spot").InnerTextAsync();
        foreach (var digit in "1000") await page.Locator($"#key-{(int)digit}").ClickAsync();
        await page.Locator("#save").ClickAsync();
        await page.Locator("#stop-mistyped").ClickAsync();
        await Assertions.Expect(page.Locator("#spot")).ToHaveTextAsync(spot);
        await Floor.IsDone(page, 2);
        await page.Locator("#tab-end").ClickAsync();
        await page.Locator("#close").WaitForAsync();
        await Assertions.Expect(page.Locator("main")).Not.ToContainTextAsync("work stopped once");
    }

    [Fact]
    public async Task Fans_StoppedAtACase_AreOffThereAloneUntilPutBack()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Begun(page, server.Url);
        var off = page.GetByRole(AriaRole.Button, new() { Name = "Off", Exact = true });
        Task Is(bool stopped) => Assertions.Expect(off).ToHaveAttributeAsync("aria-pressed", stopped ? "true" : "false");

        // By the list of what is off, as by the switch.
        await page.Locator("details.more > summary").ClickAsync();
        await page.Locator("#off-what").SelectOptionAsync("fans-off");
        await page.Locator("#off").ClickAsync();
        await Is(true);
        var survey = page.Url;
        await page.ReloadAsync();
        await page.Locator("#current").WaitForAsync();
        await Is(true);
        for (var steps = 0; steps < 45 && !(await page.Locator("#current").InnerTextAsync()).StartsWith("Zero", StringComparison.Ordinal); steps++) await page.GetByLabel("Previous point").ClickAsync();
        await Is(false);
        await Assertions.Expect(off).ToBeDisabledAsync();
        await Floor.To(page, "1A");
        await Is(true);
        await page.GetByRole(AriaRole.Button, new() { Name = "On", Exact = true }).ClickAsync();
        await Is(false);
        await Assertions.Expect(page.Locator(".restored")).ToHaveCountAsync(0);
        Assert.Equal(survey, page.Url);
    }

    [Fact]
    public async Task Visit_ThatHasEnded_TakesReadingsOnlyWhenItGoesOn()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "ended");
        var page = screens.Page;
        await Begun(page, server.Url);
        await page.Locator("#tab-end").ClickAsync();
        await page.Locator("#close").ClickAsync();
        await page.Locator("#closed").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Log", Exact = true }).ClickAsync();
        await page.Locator("#ended").WaitForAsync();
        await Assertions.Expect(page.Locator("#save")).ToHaveCountAsync(0);
        await screens.Look("log");
        await page.Locator("#tab-paper").ClickAsync();
        await page.Locator("#ended").WaitForAsync();
        await page.Locator("#go-on").ClickAsync();
        await page.Locator("#paper-0").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Log", Exact = true }).ClickAsync();
        await Floor.Log(page, "3");
        screens.IsQuiet();
    }

    // At the third point of case 1A, the two before it read.
    private static async Task Begun(IPage page, string url)
    {
        await Floor.MakeStore(page, url);
        await Floor.Begin(page);
        await Floor.To(page, "1A");
        var first = await page.Locator("#spot").InnerTextAsync();
        await Floor.Log(page, "0");
        await Floor.Log(page, "1");
        Assert.NotEqual(first, await page.Locator("#spot").InnerTextAsync());
        Assert.StartsWith("1A", await page.Locator("#current").InnerTextAsync(), StringComparison.Ordinal);
    }
}
