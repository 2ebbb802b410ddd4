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
        await Floor.Comes(page, "() => navigator.serviceWorker.getRegistration().then(r => !r.installing && !r.waiting)");
        Assert.False(await page.GetByText("A new version is here").IsVisibleAsync());
        wire.Cut();
        await page.ReloadAsync();
        await Floor.Log(page, "6");
        Assert.False(await Floor.HasNewVersion(page));

        // Once all of it can be had, it is offered and taken.
        wire.Update();
        wire.Mend();
        await Floor.UseNewVersion(page);
        await Floor.IsDone(page, 2);
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
        await page.WaitForFunctionAsync("() => !window.before");
        foreach (var one in new[] { page, other })
        {
            await Assertions.Expect(one.Locator("#progress")).ToContainTextAsync("2 of");
            await Floor.GetsNewVersion(one);
            await OpenAnew(one);
            await Assertions.Expect(one.Locator("#progress")).ToContainTextAsync("2 of");
        }
    }

    // A page that begins anew by itself can't be loaded again at the same moment.
    private static async Task OpenAnew(IPage page)
    {
        try
        {
            await page.ReloadAsync();
        }
        catch (PlaywrightException e) when (e.Message.Contains("interrupted by another navigation", StringComparison.Ordinal) || e.Message.Contains("ERR_ABORTED", StringComparison.Ordinal))
        {
            await page.WaitForLoadStateAsync();
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
