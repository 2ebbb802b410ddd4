using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A new version of the client while work goes on: taken whole or not at all, and never in the way of an offline start.</summary>
[Collection(BrowserTests.Name)]
public sealed class UpdateTests(Chromium chromium)
{
    [Fact]
    public async Task Update_NotWhole_LeavesTheOldVersionStartingOffline()
    {
        await using var server = await ServerProcess.Start();
        await using var wire = new Wire(server.Url);
        await using var device = await chromium.Device();
        var page = await Ready(device, wire);
        wire.Update(whole: false);
        await page.ReloadAsync();
        await page.EvaluateAsync("() => navigator.serviceWorker.getRegistration().then(r => r.update()).catch(() => {})");
        await page.WaitForFunctionAsync("() => navigator.serviceWorker.getRegistration().then(r => !r.installing && !r.waiting)");
        Assert.False(await page.GetByText("A new version is here").IsVisibleAsync());
        wire.Cut();
        await page.ReloadAsync();
        await Floor.Log(page, "6");
        Assert.False(await Floor.HasNewVersion(page));

        // Once all of it can be had, it is offered and taken.
        wire.Update();
        wire.Mend();
        await Floor.UseNewVersion(page);
        Assert.Equal(2, await Floor.Done(page));
        // What the old version has already was not fetched again, the worker's own scripts aside.
        Assert.Equal(["/app.css"], wire.Asked.Except(["/service-worker.js", "/service-worker-assets.js", "/js/versions.js"]));
    }

    /// <summary>The network goes at the moment the new version is asked in, and a second page of the survey is just being opened: both
    /// start, whole, with what was logged.</summary>
    [Fact]
    public async Task Update_NetworkGoneAtOnceAndAPageHalfOpen_BothStart()
    {
        await using var server = await ServerProcess.Start();
        await using var wire = new Wire(server.Url);
        await using var device = await chromium.Device();
        var page = await Ready(device, wire);
        wire.Update();
        await page.ReloadAsync();
        var offered = page.GetByRole(AriaRole.Button, new() { Name = "Use it now" });
        await offered.WaitForAsync();
        await Floor.Log(page, "6");
        var other = await device.NewPageAsync();
        var opening = other.GotoAsync(page.Url, new() { WaitUntil = WaitUntilState.Commit });
        await page.EvaluateAsync("() => { window.before = true; }");
        await offered.ClickAsync();
        wire.Cut();
        await opening;
        // A page that begins anew by itself can't be loaded again at the same moment.
        await page.WaitForFunctionAsync("() => !window.before");
        foreach (var one in new[] { page, other })
        {
            await Assertions.Expect(one.Locator("#progress")).ToContainTextAsync("2 of");
            await one.WaitForFunctionAsync("mark => fetch('/app.css').then(r => r.text()).then(t => t.includes(mark))", Wire.Mark);
            await one.ReloadAsync();
            await Assertions.Expect(one.Locator("#progress")).ToContainTextAsync("2 of");
        }
    }

    // A visit with one reading, on a device that keeps the whole wire.
    private static async Task<IPage> Ready(IBrowserContext device, Wire wire)
    {
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, wire.Url);
        await Floor.Begin(page);
        await Floor.Log(page, "5");
        await Floor.AllSent(page);
        await Floor.ReadyForOffline(page);
        return page;
    }
}
