using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What was located at a visit is kept on the device: no view of it, and no restart, has it located again.</summary>
[Collection(BrowserTests.Name)]
public sealed class KeptVisitsTests(Chromium chromium)
{
    // What workers say they are doing, as the page hears it.
    private const string Listen = """
        window.said = [];
        window.Worker = class extends Worker {
          constructor(...all) {
            super(...all);
            this.addEventListener('message', ({ data }) => { if (data.work && !window.said.includes(data.work)) window.said.push(data.work); });
          }
        };
        """;

    [Fact]
    public async Task Months_AfterAReload_ComeWithoutLocatingAgain()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.AddInitScriptAsync(Listen);
        await Desk.OpenSmall(page, server.Url);
        await Open(page, Desk.Sample("small-june.readings.csv"));
        var store = new Uri(page.Url).AbsolutePath;
        await Map(page, store);
        Assert.Equal(["Locating 2026-05-04", "Locating 2026-06-02"], await Located(page));
        var zones = await page.Locator("ul.zones").InnerTextAsync();

        // Months were never asked for, so their answer is worked out; its visits are not.
        await page.GotoAsync(server.Url + store + "/compare");
        await page.Locator("#compare").ClickAsync();
        await Assertions.Expect(page.Locator(".work")).ToContainTextAsync("2 visits compared");
        await Assertions.Expect(page.Locator("table#zones")).ToContainTextAsync("Seen again");
        Assert.Single(page.Workers);
        Assert.Empty(await Located(page));

        // The report rests on the same visits.
        await page.GotoAsync(server.Url + store + "/report");
        await page.Locator("#part-HeatMap").UncheckAsync();
        await page.Locator("#draw").ClickAsync();
        await page.Locator("figure.sheet").First.WaitForAsync();
        Assert.Empty(await Located(page));

        // A reading more on the later day gives other zones: that day is located again, and the earlier one is not.
        await page.GotoAsync(server.Url + store);
        var more = Path.Combine(server.Folder, "more.readings.csv");
        await File.WriteAllTextAsync(more, "time,ppm,fixture,at,x,y,air\n2026-06-02T06:10:00Z,180,C2,3.2,,,fans-on\n2026-06-02T06:10:15Z,95,C2,2.5,,,fans-on\n", TestContext.Current.CancellationToken);
        await Open(page, more);
        await page.ReloadAsync();
        await Map(page, store);
        Assert.Equal(["Locating 2026-06-02"], await Located(page));
        Assert.NotEqual(zones, await page.Locator("ul.zones").InnerTextAsync());
    }

    [Fact]
    public async Task KeptVisit_CutShort_IsLocatedAnew()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.AddInitScriptAsync(Listen);
        await Desk.OpenSmall(page, server.Url);
        var store = new Uri(page.Url).AbsolutePath;
        await Map(page, store);
        var zones = await page.Locator("ul.zones").InnerTextAsync();
        await page.EvaluateAsync("""
            async () => {
              const cache = await caches.open('storemap-answers');
              for (const kept of await cache.keys()) {
                if (kept.url.includes('/visits/')) await cache.put(kept, new Response((await (await cache.match(kept)).text()).slice(0, 200)));
                else await cache.delete(kept);
              }
            }
            """);
        await page.ReloadAsync();
        await Map(page, store);
        Assert.Equal(["Locating 2026-05-04"], await Located(page));
        Assert.Equal(zones, await page.Locator("ul.zones").InnerTextAsync());
    }

    private static async Task Open(IPage page, string readings)
    {
        await page.Locator("#visit-open").SetInputFilesAsync(readings);
        await page.GetByText($"Read in: {File.ReadLines(readings).Count() - 1} readings").WaitForAsync();
    }

    private static async Task Map(IPage page, string store)
    {
        await Floor.Turn(page, store + "/map");
        await Assertions.Expect(page.Locator(".work")).ToContainTextAsync("Drawn quickly");
    }

    private static async Task<string[]> Located(IPage page) => [.. (await page.EvaluateAsync<string[]>("() => window.said")).Where(w => w.StartsWith("Locating", StringComparison.Ordinal))];
}
