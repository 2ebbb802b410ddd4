using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What the floor works on is stopped when the visit is left, and goes on when it is opened again.</summary>
[Collection(BrowserTests.Name)]
public sealed class LeftVisitTests(Chromium chromium)
{
    private const string Listen = """
        window.ended = 0;
        window.Worker = class extends Worker {
          terminate() { window.ended++; super.terminate(); }
        };
        """;

    /// <summary>It went on being planned beside the map, on the one other core that a tablet may have.</summary>
    [Fact]
    public async Task Walk_BeingPlannedWhenTheVisitIsLeft_IsStoppedAndPlannedOnReturn()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.AddInitScriptAsync(Listen);
        await Floor.MakeStore(page, server.Url, 60);
        var store = page.Url;
        await Floor.Begin(page);
        Assert.Equal(0, await page.EvaluateAsync<int>("window.ended"));
        await page.EvaluateAsync("() => Blazor.navigateTo('/device')");
        await page.WaitForURLAsync("**/device");
        Assert.Equal(1, await Wait.Until(() => page.EvaluateAsync<int>("window.ended"), ended => ended == 1));
        await Floor.Turn(page, store);
        await page.Locator("a.card[href^='/survey/']").First.ClickAsync();
        await page.Locator("#current").WaitForAsync();
        await Floor.IsKept(page, "stores", new Uri(store).Segments[^1], "s => s.order?.length > 60");
    }
}
