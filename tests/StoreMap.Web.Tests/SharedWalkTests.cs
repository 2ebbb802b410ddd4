using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A walk that the planner set is the one that the technician finds on another device.</summary>
[Collection(BrowserTests.Name)]
public sealed class SharedWalkTests(Chromium chromium)
{
    [Fact]
    public async Task Walk_OrderedOnOneDevice_IsWalkedOnAnother()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "shared");
        var page = screens.Page;
        var planned = await Planned(page, server);
        var titles = page.Locator(".stops b");

        // From the last stop: what is left after it comes after it, and the monitor is zeroed before.
        await page.Locator(".stops .from").Last.ClickAsync();
        await Assertions.Expect(titles.Nth(1)).ToHaveTextAsync(planned[^1]);
        await Assertions.Expect(titles.First).ToHaveTextAsync("Zero");
        await page.Locator(".stops .pin").Nth(1).ClickAsync();
        await page.Locator("#begin-at").FillAsync("05:30");
        await page.Locator(".clock-line").First.WaitForAsync();
        var ordered = await titles.AllInnerTextsAsync();
        Assert.NotEqual(planned, ordered);
        await Floor.AllSent(page);

        // Another device is sent a link to it, before it has the store.
        await using var other = await chromium.Phone();
        var there = await other.NewPageAsync();
        await there.GotoAsync(page.Url);
        await Assertions.Expect(there.Locator(".stops b")).ToHaveTextAsync(ordered);
        await Assertions.Expect(there.Locator(".stops .pin[aria-pressed=true]")).ToHaveCountAsync(1);
        await Assertions.Expect(there.Locator("#begin-at")).ToHaveValueAsync("05:30");
        await Assertions.Expect(there.Locator("#set-elsewhere")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("#set-elsewhere")).ToHaveCountAsync(0);

        // What the technician changes comes back.
        await there.Locator(".stops .later").Nth(1).ClickAsync();
        await Assertions.Expect(there.Locator(".stops b").Nth(2)).ToHaveTextAsync(planned[^1]);
        await Floor.AllSent(there);
        await Floor.Exchange(page);
        await Assertions.Expect(titles.Nth(2)).ToHaveTextAsync(planned[^1]);
        await Assertions.Expect(page.Locator("#set-elsewhere")).ToBeVisibleAsync();
        screens.IsQuiet();
    }

    [Fact]
    public async Task Walk_TimedAndMovedWhileItIsDrawn_IsSharedAsItWasSet()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        var planned = await Planned(page, server);

        // All before the first drawing of it is there, which the next takes the place of.
        await page.EvaluateAsync("""
            () => {
              const time = document.getElementById('begin-at');
              time.value = '05:30';
              time.dispatchEvent(new Event('change', { bubbles: true }));
              document.getElementById('nearer').click();
              document.querySelectorAll('.stops .later')[1].click();
              document.getElementById('farther').click();
              document.querySelectorAll('.stops .later')[2].click();
            }
            """);
        List<string> moved = [planned[0], planned[2], planned[3], planned[1], .. planned.Skip(4)];
        await Assertions.Expect(page.Locator(".stops b")).ToHaveTextAsync(moved);
        await page.Locator(".clock-line").First.WaitForAsync();
        await Floor.AllSent(page);

        await using var other = await chromium.Phone();
        var there = await other.NewPageAsync();
        await there.GotoAsync(page.Url);
        await Assertions.Expect(there.Locator(".stops b")).ToHaveTextAsync(moved);
        await Assertions.Expect(there.Locator("#begin-at")).ToHaveValueAsync("05:30");
    }

    [Fact]
    public async Task Walk_PlannedAnewRightAfterAMove_IsTheNewPlanThoughTheMoveWasStillKept()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        var planned = await Planned(page, server);
        List<string> moved = [planned[0], planned[2], planned[1], .. planned.Skip(3)];
        await page.Locator(".stops .later").Nth(1).ClickAsync();
        await Assertions.Expect(page.Locator(".stops b")).ToHaveTextAsync(moved);

        await page.EvaluateAsync("""
            () => {
              document.querySelectorAll('.stops .later')[2].click();
              document.getElementById('replan').click();
              document.getElementById('nearer').click();
            }
            """);
        await Assertions.Expect(page.Locator(".stops b")).ToHaveTextAsync(planned);
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".stops b")).ToHaveTextAsync(planned);
    }

    /// <summary>A new store's walk, as it is planned.</summary>
    private static async Task<IReadOnlyList<string>> Planned(IPage page, ServerProcess server)
    {
        await Floor.MakeStore(page, server.Url);
        await page.GetByRole(AriaRole.Link, new() { Name = "Walk", Exact = true }).ClickAsync();
        await page.Locator(".stops li").First.WaitForAsync();
        return await page.Locator(".stops b").AllInnerTextsAsync();
    }
}
