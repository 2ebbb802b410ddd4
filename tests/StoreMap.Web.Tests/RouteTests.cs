using System.Diagnostics;
using System.Text.Json.Nodes;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The route in the browser: the command line's, and how long it takes there, which is told and not asserted.</summary>
[Collection(BrowserTests.Name)]
public sealed class RouteTests(Chromium chromium, ITestOutputHelper output)
{
    [Fact]
    public async Task DemoStore_RouteIsTheCommandLines()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.GotoAsync(server.Url);
        await page.Locator("#demo").ClickAsync();
        await page.Locator("a.card[href^='/survey/']").First.WaitForAsync();
        var system = await chromium.Browser.NewBrowserCDPSessionAsync();
        var spent = await Processor(system);
        var clock = Stopwatch.StartNew();
        await page.GetByRole(AriaRole.Link, new() { Name = "Walk", Exact = true }).First.ClickAsync();
        await page.Locator("ol.stops li").First.WaitForAsync();
        output.WriteLine(FormattableString.Invariant($"Page opened, engine started, route planned and drawn: {clock.Elapsed.TotalSeconds:0.0} s, {await Processor(system) - spent:0.0} s of the processor."));

        var folder = Directory.CreateTempSubdirectory("storemap-route-").FullName;
        Assert.Equal(0, await DeskTests.Run("route", Path.Combine(Checkout.Root, "layouts", "tern-hollow", "tern-hollow.layout.json"), "--out", folder));
        var route = JsonNode.Parse(await File.ReadAllTextAsync(Path.Combine(folder, "route.json"), TestContext.Current.CancellationToken))!;
        Directory.Delete(folder, recursive: true);
        await Wait.Equal(route["order"]!.AsArray().Select(id => "point-" + id), () => WalkTests.Drawn(page));
    }

    /// <summary>Seconds of the processor that all of the browser has spent, so that what else the machine does leaves the figure alone.</summary>
    internal static async Task<double> Processor(ICDPSession system)
    {
        var info = await system.SendAsync("SystemInfo.getProcessInfo");
        return info!.Value.GetProperty("processInfo").EnumerateArray().Sum(p => p.GetProperty("cpuTime").GetDouble());
    }
}
