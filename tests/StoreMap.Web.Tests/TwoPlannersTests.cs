using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>Two people draw one store on two devices.</summary>
[Collection(BrowserTests.Name)]
public sealed class TwoPlannersTests(Chromium chromium)
{
    [Fact]
    public async Task Plan_SavedByTwo_IsPutTogetherAndWhatBothChangedIsAsked()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "both");
        var mine = screens.Page;
        await Floor.MakeStore(mine, server.Url, cases: 3);
        await Floor.AllSent(mine);
        var store = new Uri(mine.Url).Segments[^1];
        await Floor.Turn(mine, $"/store/{store}/plan");
        await Name(mine, "1", "Dairy");
        await Name(mine, "2", "Juice");

        // The other saves first; what this device then has of the server is not what its board was made from.
        await using var others = await Screens.Open(chromium, "other");
        var theirs = others.Page;
        await theirs.GotoAsync(server.Url);
        await theirs.GetByText("Long Row Foods").First.WaitForAsync();
        await Floor.Turn(theirs, $"/store/{store}/plan");
        await Name(theirs, "2", "Salads");
        await Name(theirs, "3", "Meat");
        await Save(theirs);
        await Floor.AllSent(theirs);

        await Save(mine);
        await Assertions.Expect(mine.Locator(".notice.warn")).ToContainTextAsync("Someone else saved");
        await mine.Locator("#both").ClickAsync();
        await Assertions.Expect(mine.Locator("#clashes legend")).ToHaveTextAsync(["fixture 2"]);
        await Assertions.Expect(mine.Locator("#put-together")).ToBeDisabledAsync();
        await screens.Look("clash");
        await mine.GetByLabel("The server's: Salads").CheckAsync();
        await mine.Locator("#put-together").ClickAsync();
        await Assertions.Expect(mine.Locator("#plan-state")).ToContainTextAsync("Both are put together");
        await Save(mine);
        await Floor.AllSent(mine);
        using var layout = JsonDocument.Parse(await server.Get($"/api/stores/{store}/layout"));
        Assert.Equal(["Dairy", "Salads", "Meat"], layout.RootElement.GetProperty("fixtures").EnumerateArray().Select(f => f.GetProperty("name").GetString()));

        // Where one's own counts for all that both changed, that too is saved upon the other's.
        await theirs.ReloadAsync();
        await Floor.IsKept(theirs, "stores", store, "s => s.document.includes('Dairy')");
        await theirs.ReloadAsync();
        await Name(mine, "3", "Bread");
        await Name(theirs, "3", "Fish");
        await Save(theirs);
        await Floor.AllSent(theirs);
        await Save(mine);
        await mine.Locator("#both").ClickAsync();
        await mine.GetByLabel("Mine: Bread").CheckAsync();
        await mine.Locator("#put-together").ClickAsync();
        await Assertions.Expect(mine.Locator("#plan-state")).ToContainTextAsync("Both are put together");

        // A round of sending that comes in between does not make it saved. The second begins when all of the first is done.
        for (var round = 0; round < 2; round++)
            await mine.RunAndWaitForResponseAsync(() => mine.EvaluateAsync("() => dispatchEvent(new Event('online'))"), r => r.Url.EndsWith("/api/stores", StringComparison.Ordinal));
        await Save(mine);
        await Floor.AllSent(mine);
        Assert.Contains("\"Bread\"", await server.Get($"/api/stores/{store}/layout"), StringComparison.Ordinal);

        // Saved once more by the same hand there is no one to ask.
        await Name(mine, "1", "Milk");
        await Save(mine);
        await Floor.AllSent(mine);
        await Assertions.Expect(mine.Locator(".notice.warn")).ToHaveCountAsync(0);
        Assert.Contains("\"Milk\"", await server.Get($"/api/stores/{store}/layout"), StringComparison.Ordinal);
    }

    /// <summary>An order made by hand was gone, without a word, with the next word changed on the plan.</summary>
    [Fact]
    public async Task Walk_PutInOrderAndThePlanSaved_KeepsItsOrder()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "order");
        var page = screens.Page;
        await Floor.MakeStore(page, server.Url, cases: 4);
        await Floor.AllSent(page);
        var store = page.Url;
        await Floor.Turn(page, store + "/route");
        var stops = page.Locator(".stops li .what");
        await stops.First.WaitForAsync();
        var planned = await stops.AllInnerTextsAsync();
        var before = await Wait.Until(() => WalkTests.Drawn(page), now => now.Count > 0);
        await page.Locator(".stops .earlier").Last.ClickAsync();
        string[] put = [.. planned.Take(planned.Count - 2), planned[^1], planned[^2]];
        await Assertions.Expect(stops).ToHaveTextAsync(put);
        var drawn = await Wait.Until(() => WalkTests.Drawn(page), now => now.Count == before.Count && !now.SequenceEqual(before));
        await Floor.AllSent(page);

        await Floor.Turn(page, store + "/plan");
        await Name(page, "2", "Salads");
        await Save(page);
        await Floor.AllSent(page);
        await Floor.Turn(page, store + "/route");
        await Assertions.Expect(stops.Filter(new() { HasText = "Salads" })).ToHaveCountAsync(1);
        await Wait.Equal(drawn, () => WalkTests.Drawn(page));
        await Assertions.Expect(page.Locator("#added")).ToHaveCountAsync(0);
        screens.IsQuiet();
    }

    [Fact]
    public async Task Store_AddedByTwoApart_IsKeptOnBothDevicesAndPutTogether()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "twice");
        var mine = screens.Page;
        await mine.GotoAsync(server.Url);
        await mine.Context.RouteAsync("**/api/**", route => route.AbortAsync());
        await Floor.MakeStore(mine, server.Url, cases: 4);
        var store = new Uri(mine.Url).Segments[^1];
        await Floor.Turn(mine, $"/store/{store}/plan");
        await Name(mine, "1", "Dairy");
        await Save(mine);

        await using var others = await Screens.Open(chromium, "other");
        var theirs = others.Page;
        await Floor.MakeStore(theirs, server.Url, cases: 3);
        await Floor.AllSent(theirs);
        await Floor.Turn(theirs, $"/store/{store}/plan");
        await Name(theirs, "1", "Juice");
        await Name(theirs, "3", "Meat");
        await Save(theirs);
        await Floor.AllSent(theirs);

        // With a network again: one's own is neither lost nor sent, and the way out is on the page that is open.
        await mine.Context.UnrouteAllAsync();
        await Floor.Exchange(mine);
        await Assertions.Expect(mine.Locator(".notice.warn")).ToContainTextAsync("was added by someone else too");
        await Assertions.Expect(mine.Locator("a.stand")).ToHaveTextAsync("1 to send");
        await Assertions.Expect(mine.Locator("#board .thing.fixtures")).ToHaveCountAsync(4);
        await mine.Locator("#both").ClickAsync();
        await Assertions.Expect(mine.Locator("#clashes legend").Filter(new() { HasText = "fixture" })).ToHaveTextAsync(["fixture 1", "fixture 3"]);
        await mine.Locator("#all-mine").ClickAsync();
        await mine.GetByLabel("The server's: Meat").CheckAsync();
        await screens.Look("clash");
        await mine.Locator("#put-together").ClickAsync();
        await Save(mine);
        await Floor.AllSent(mine);
        await Assertions.Expect(mine.Locator(".notice.warn")).ToHaveCountAsync(0);
        using var layout = JsonDocument.Parse(await server.Get($"/api/stores/{store}/layout"));
        Assert.Equal(["Dairy", null, "Meat", null], layout.RootElement.GetProperty("fixtures").EnumerateArray().Select(f => f.TryGetProperty("name", out var name) ? name.GetString() : null));
    }

    [Fact]
    public async Task Store_AddedByTwoInDifferentUnits_IsNotPutTogetherAndNothingIsLost()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "units");
        var mine = screens.Page;
        await mine.GotoAsync(server.Url);
        await mine.Context.RouteAsync("**/api/**", route => route.AbortAsync());
        await Floor.MakeStore(mine, server.Url, cases: 2);
        var store = new Uri(mine.Url).Segments[^1];
        await using var others = await chromium.Device();
        var theirs = await others.NewPageAsync();
        await theirs.GotoAsync($"{server.Url}/new");
        await theirs.Locator("#name").FillAsync("Long Row Foods");
        await theirs.Locator("select").SelectOptionAsync("m");
        await theirs.Locator("#cases").FillAsync("tag,kind,lengths,refrigerant\n1,open-case,3.75-3.75,R-448A\n");
        await theirs.GetByRole(AriaRole.Button, new() { Name = "Make the store" }).ClickAsync();
        await Floor.AllSent(theirs);
        await mine.Context.UnrouteAllAsync();
        await Floor.Exchange(mine);
        await Floor.Turn(mine, $"/store/{store}/plan");
        await mine.Locator("#both").ClickAsync();
        await Assertions.Expect(mine.Locator("#plan-state")).ToHaveTextAsync("The server's plan is in another unit (metre) than yours, so their numbers can't be put together: take the server's, and draw in it what yours has.");
        await Assertions.Expect(mine.Locator("#clashes")).ToHaveCountAsync(0);
        await Assertions.Expect(mine.Locator("#board .thing.fixtures")).ToHaveCountAsync(2);
        Assert.Contains("\"units\": \"m\"", await server.Get($"/api/stores/{store}/layout"), StringComparison.Ordinal);
        await mine.GetByRole(AriaRole.Button, new() { Name = "Take the server's plan instead" }).ClickAsync();
        await Assertions.Expect(mine.Locator("#board .thing.fixtures")).ToHaveCountAsync(1);
        await Floor.AllSent(mine);
    }

    private static async Task Save(IPage page)
    {
        await page.Locator("#save").ClickAsync();
        await Assertions.Expect(page.Locator("#plan-state")).ToContainTextAsync(new Regex("Saved on this device|Saved and sent"));
    }

    private static async Task Name(IPage page, string tag, string name)
    {
        if (!await page.Locator(".things").IsVisibleAsync()) await page.Locator("summary").Filter(new() { HasTextRegex = new("^Choose among all \\d+ things") }).ClickAsync();
        await Floor.PressAll(page.Locator(".things [aria-pressed=true]"));
        await page.Locator(".things button").Filter(new() { HasTextRegex = new($"^{tag}\\b") }).First.ClickAsync();
        await page.Locator("#field-name").FillAsync(name);
        await page.Keyboard.PressAsync("Tab");
    }
}
