using System.Diagnostics;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>How long the desk's long work takes in the browser on the demo store, from the press to what is shown: told, not asserted.</summary>
[Collection(BrowserTests.Name)]
public sealed class DeskTimesTests(Chromium chromium, ITestOutputHelper output)
{
    [Fact]
    public async Task DemoStore_MapsAndMonths_AreDrawn()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.GotoAsync(server.Url);
        await page.Locator("#demo").WaitForAsync();
        var system = await chromium.Browser.NewBrowserCDPSessionAsync();
        var picture = page.Locator("#map > svg");
        async Task Time(string what, ILocator press, Func<Task> shown)
        {
            var (spent, clock) = (await RouteTests.Processor(system), Stopwatch.StartNew());
            await press.ClickAsync();
            await shown();
            output.WriteLine(FormattableString.Invariant($"{what}: {clock.Elapsed.TotalSeconds:0.0} s, {await RouteTests.Processor(system) - spent:0.0} s of the processor."));
        }

        await Time("Demo store opened", page.Locator("#demo"), () => page.Locator("a.card[href^='/survey/']").First.WaitForAsync());
        var map = page.GetByRole(AriaRole.Link, new() { Name = "Map", Exact = true }).First;
        await Time("Live map, pressed as soon as the new store is there", map, () => picture.WaitForAsync());
        await Time("Its leak zones, waited for", page.Locator("h1"), () => Assertions.Expect(page.Locator(".work")).ToContainTextAsync("Drawn quickly"));
        var live = await picture.InnerHTMLAsync();
        await Time("Live map again, a layer switched", page.Locator("#layer-Readings"), () => Assertions.Expect(picture).Not.ToHaveJSPropertyAsync("innerHTML", live));
        await page.Locator(".work progress").WaitForAsync(new() { State = WaitForSelectorState.Detached });
        await Time("Full map", page.Locator("#full"), () => Assertions.Expect(page.Locator(".work")).ToContainTextAsync("Drawn as printed"));

        // Asked the first time by a page opened anew: the engine starts, and has the visits as the map left them.
        var store = new Uri(page.Url).AbsolutePath.Split("/map")[0];
        await page.GotoAsync(server.Url + store + "/compare");
        await page.Locator("#compare").WaitForAsync();
        await Time("Three months compared, first time, page opened anew, engine starting", page.Locator("#compare"), () => Assertions.Expect(page.Locator(".work")).ToContainTextAsync("3 visits compared"));
        await Assertions.Expect(page.Locator(".months figure svg")).ToHaveCountAsync(3);
        await Assertions.Expect(page.Locator("#zones tbody tr")).Not.ToHaveCountAsync(0);

        // Other visits than before, so that it is worked out; the engine and what it knows of each visit are there.
        await page.Locator(".visit").Last.UncheckAsync();
        await Time("Two of them, engine at work before", page.Locator("#compare"), () => Assertions.Expect(page.Locator(".work")).ToContainTextAsync("2 visits compared"));
        await Assertions.Expect(page.Locator(".months figure svg")).ToHaveCountAsync(2);

        // As on a device that opens the map of a visit looked at before.
        await page.GotoAsync(server.Url + store);
        await page.Locator("#begin").WaitForAsync();
        await Time("Live map with its leak zones, seen before", map, () => page.Locator(".order li").First.WaitForAsync());

        // As while a visit is logged: one reading more, and the map drawn anew.
        foreach (var which in new[] { "one more reading", "another" })
        {
            await Floor.Turn(page, store);
            await page.Locator("a.card[href^='/survey/']").First.ClickAsync();
            await page.Locator("#current, #go-on").WaitForAsync();
            if (await page.Locator("#go-on").IsVisibleAsync()) await page.Locator("#go-on").ClickAsync();
            await page.Locator("#current").WaitForAsync();
            // The probe is held before a number is typed: ten seconds as a rule, three here.
            await Task.Delay(TimeSpan.FromSeconds(3), TestContext.Current.CancellationToken);
            await Floor.Log(page, "3");
            await Floor.Turn(page, store);
            await Time($"Live map after {which}", map, () => picture.WaitForAsync());
            await Assertions.Expect(page.Locator(".work")).ToContainTextAsync("Drawn quickly");
        }

        // As a planner comes to it: the store's page is looked at first.
        await page.EvaluateAsync("async () => { for (const name of await caches.keys()) if (name.startsWith('storemap-answers')) await caches.delete(name); }");
        await page.GotoAsync(server.Url + store);
        await page.Locator("#begin").WaitForAsync();
        await Task.Delay(TimeSpan.FromSeconds(4), TestContext.Current.CancellationToken);
        await Time("Live map, the store's page looked at for four seconds, nothing kept", map, () => picture.WaitForAsync());
    }
}
