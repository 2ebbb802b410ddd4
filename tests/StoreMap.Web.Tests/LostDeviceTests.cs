using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A tablet is lost: the office says so, and the tablet wipes itself.</summary>
[Collection(BrowserTests.Name)]
public sealed class LostDeviceTests(Chromium chromium)
{
    [Fact]
    public async Task Tablet_ReportedLost_WipesItselfAtItsNextContact()
    {
        await using var server = await ServerProcess.Start();
        await using var wire = new Wire(server.Url);
        await using var tablet = await chromium.Device();
        var lost = await tablet.NewPageAsync();
        await Floor.MakeStore(lost, wire.Url);
        var survey = await Floor.Begin(lost);
        await Floor.Log(lost, "7");
        await Map(lost, survey);
        // Nobody asks for it: the client sends by itself.
        await Wait.Until(() => Floor.Typed(server, survey), typed => typed.Count > 0);
        await Floor.ReadyForOffline(lost);
        Assert.NotEqual(0, await lost.EvaluateAsync<int>("() => caches.open('storemap-answers').then(c => c.keys()).then(k => k.filter(q => q.url.includes('/visits/')).length)"));
        wire.Cut();
        await Floor.Log(lost, "9");

        await using var screens = await Screens.Open(chromium, "device");
        var office = screens.Page;
        await office.GotoAsync($"{server.Url}/device");
        await office.Locator("#devices li").Nth(1).WaitForAsync();
        await Assertions.Expect(office.Locator("#devices li").Filter(new() { HasText = "this device" })).ToHaveCountAsync(1);
        await office.GetByRole(AriaRole.Button, new() { Name = "Lost", Exact = true }).ClickAsync();
        await screens.Look("asked", office.Locator("#devices"));
        await office.Locator("#devices .wipe").ClickAsync();
        await Assertions.Expect(office.Locator("#devices")).ToContainTextAsync("lost since");
        await screens.Look("lost", office.Locator("#devices"));
        screens.IsQuiet();

        wire.Mend();
        await Floor.Exchange(lost);
        await Assertions.Expect(lost.Locator("#wiped")).ToContainTextAsync("reported lost");
        await Assertions.Expect(lost.Locator("main[data-done]")).ToBeVisibleAsync();
        Assert.Equal("[0,0,0]", await lost.EvaluateAsync<string>("async () => JSON.stringify([(await indexedDB.databases()).length, (await caches.keys()).length, localStorage.length])"));

        // What it had not sent never arrives, and opened anew it is a device of no past.
        Assert.Equal(["7"], (await Floor.Typed(server, survey)).Select(t => t.Ppm));
        await lost.GotoAsync($"{wire.Url}/survey/{survey}");
        await lost.GetByText("Not on this device").First.WaitForAsync();
    }

    // What was worked out is kept on the tablet too.
    private static async Task Map(IPage page, string survey)
    {
        await Floor.Turn(page, "/");
        await page.Locator("a.card").First.ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Map", Exact = true }).First.ClickAsync();
        await Assertions.Expect(page.Locator(".work")).ToContainTextAsync("Drawn quickly");
        await Floor.Turn(page, $"/survey/{survey}");
        await page.Locator("#current").WaitForAsync();
    }
}
