using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What the client says of its sending and when it sends, and that what others made comes to the page that waits for it.</summary>
[Collection(BrowserTests.Name)]
public sealed class SendingTests(Chromium chromium)
{
    // The client's next round, a quarter of a minute away, never comes.
    private const string NoNextRound = "{ const real = globalThis.setTimeout; globalThis.setTimeout = (work, ms, ...more) => ms > 4000 ? 0 : real(work, ms, ...more); }";

    [Fact]
    public async Task Store_JustMade_IsNotCalledSentBeforeTheServerHasIt()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.GotoAsync(server.Url);
        await Floor.AllSent(page);
        var free = new TaskCompletionSource();
        await page.RouteAsync("**/api/stores/*/layout", async route =>
        {
            await free.Task;
            await route.ContinueAsync();
        });
        await page.GetByRole(AriaRole.Link, new() { Name = "New store from a case list" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Fill in an example" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the store" }).ClickAsync();
        await page.Locator("#begin").WaitForAsync();
        await Assertions.Expect(page.Locator("a.stand")).ToHaveTextAsync("1 to send");
        free.SetResult();
        await Floor.AllSent(page);
    }

    [Fact]
    public async Task Visit_BegunWhileARoundEnds_IsSentWithoutWaitingForTheNext()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.AddInitScriptAsync(NoNextRound);
        await Floor.MakeStore(page, server.Url);
        await Floor.AllSent(page);
        var (asked, free) = (new TaskCompletionSource(), new TaskCompletionSource());
        await page.RouteAsync("**/api/stores", async route =>
        {
            asked.TrySetResult();
            await free.Task;
            await route.ContinueAsync();
        });
        await Floor.Exchange(page);
        await asked.Task.WaitAsync(Wait.Patience, TestContext.Current.CancellationToken);

        // What was to be sent is sent; the round only fetches yet.
        await Floor.Begin(page);
        await Assertions.Expect(page.Locator("a.stand")).ToHaveTextAsync("1 to send");
        free.SetResult();
        await Assertions.Expect(page.Locator("a.stand")).ToHaveTextAsync("All sent");
    }

    [Fact]
    public async Task Store_OpenedBeforeItCame_IsShownWithItsVisitByItself()
    {
        await using var server = await ServerProcess.Start();
        await using var mine = await chromium.Device();
        await using var others = await chromium.Device();
        var theirs = await others.NewPageAsync();
        await Floor.MakeStore(theirs, server.Url);
        var store = theirs.Url;
        await Floor.AllSent(theirs);
        var page = await mine.NewPageAsync();
        var free = new TaskCompletionSource();
        await page.RouteAsync("**/api/session", async route =>
        {
            await free.Task;
            await route.ContinueAsync();
        });
        await page.GotoAsync(store);
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Not on this device");
        free.SetResult();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Alder Corner Foods");

        // A visit begun elsewhere while the page is open.
        var visit = await Floor.Begin(theirs);
        await Floor.AllSent(theirs);
        await Floor.Exchange(page);
        await Assertions.Expect(page.Locator($"a[href='/survey/{visit}']")).ToBeVisibleAsync();
    }

    [Fact]
    public async Task Record_ChangedSinceItWasRead_IsNotWrittenOver()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.GotoAsync(server.Url);
        var answers = await page.EvaluateAsync<string[]>("""
            async () => {
              const kept = await import('/js/storage.js');
              await kept.open();
              await kept.put('stores', '{"id":"a","version":0}');
              const read = await kept.get('stores', 'a');
              await kept.put('stores', '{"id":"a","version":1}');
              const late = await kept.swap('stores', read, '{"id":"a","version":0,"order":["z"]}'), between = await kept.get('stores', 'a');
              const again = await kept.swap('stores', between, '{"id":"a","version":1,"order":["z"]}');
              return [String(late), between, String(again), await kept.get('stores', 'a')];
            }
            """);
        Assert.Equal(["false", """{"id":"a","version":1}""", "true", """{"id":"a","version":1,"order":["z"]}"""], answers);
    }
}
