using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A plan on its way to the server while people go on, and when the answer is lost.</summary>
[Collection(BrowserTests.Name)]
public sealed class PlanSendingTests(Chromium chromium)
{
    [Fact]
    public async Task Plan_SavedAgainWhileTheServerAnswers_IsNotOverwritten()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "sending");
        var page = screens.Page;
        var layout = await Open(page, server);
        var (asked, answer) = (new TaskCompletionSource(), new TaskCompletionSource());
        await page.Context.RouteAsync("**/api/stores/*/layout", async route =>
        {
            if (route.Request.Method != "PUT" || !asked.TrySetResult())
            {
                await route.ContinueAsync();
                return;
            }

            var given = await route.FetchAsync();
            await answer.Task;
            await route.FulfillAsync(new() { Response = given });
        });
        await Name(page, "Dairy");
        await Save(page);
        await asked.Task.WaitAsync(Wait.Patience, TestContext.Current.CancellationToken);

        // The server has Dairy and has not said so yet.
        await Name(page, "Juice");
        await Save(page);
        answer.SetResult();
        await Floor.AllSent(page);
        Assert.Contains("\"Juice\"", await server.Get(layout), StringComparison.Ordinal);
        await page.ReloadAsync();
        await Assertions.Expect(page.GetByText("As saved.")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".things button").First).ToContainTextAsync("Juice");
        await Assertions.Expect(page.Locator(".notice.warn")).ToHaveCountAsync(0);
        Assert.Contains("\"Dairy\"", await server.Get(layout + "?version=2"), StringComparison.Ordinal);
        screens.IsQuiet();
    }

    [Fact]
    public async Task Plan_WhoseAnswerIsLost_IsNobodyElses()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "lost-answer");
        var page = screens.Page;
        var layout = await Open(page, server);
        var lost = true;
        await page.Context.RouteAsync("**/api/stores/*/layout", async route =>
        {
            if (route.Request.Method == "PUT" && Volatile.Read(ref lost))
            {
                await route.FetchAsync();
                await route.AbortAsync();
            }
            else
            {
                await route.ContinueAsync();
            }
        });
        await Name(page, "Dairy");
        await Save(page);
        await Assertions.Expect(page.Locator("a.stand")).ToHaveTextAsync("Offline · 1 to send");
        Assert.Contains("\"Dairy\"", await server.Get(layout), StringComparison.Ordinal);
        Volatile.Write(ref lost, false);
        await Floor.AllSent(page);
        await Assertions.Expect(page.Locator(".notice.warn")).ToHaveCountAsync(0);
        await Name(page, "Juice");
        await Save(page);
        await Floor.AllSent(page);
        Assert.Contains("\"Juice\"", await server.Get(layout), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Plan_SavedInAnotherWindowAndNotSentYet_IsNotOverwritten()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "windows");
        var page = screens.Page;
        var layout = await Open(page, server);
        var other = await page.Context.NewPageAsync();
        await other.GotoAsync(page.Url);
        await other.Locator("#board").WaitForAsync();
        var off = true;
        await page.Context.RouteAsync("**/api/stores/*/layout", route => route.Request.Method == "PUT" && Volatile.Read(ref off) ? route.AbortAsync() : route.ContinueAsync());
        await Name(page, "Dairy");
        await Save(page);

        await Name(other, "Juice");
        await other.Locator("#save").ClickAsync();
        await Assertions.Expect(other.Locator("#plan-state")).ToContainTextAsync("another window");
        await Floor.IsKept(page, "stores", new Uri(page.Url).Segments[^2].TrimEnd('/'), "s => s.document.includes('Dairy')");

        // Once the first is sent the second is put together with it.
        Volatile.Write(ref off, false);
        await Floor.AllSent(page);
        await Save(other);
        await other.Locator("#both").ClickAsync();
        await Assertions.Expect(other.Locator("#clashes")).ToContainTextAsync("Dairy");
        Assert.Contains("\"Dairy\"", await server.Get(layout), StringComparison.Ordinal);
    }

    private static async Task<string> Open(IPage page, ServerProcess server)
    {
        await Floor.MakeStore(page, server.Url, cases: 1);
        await Floor.AllSent(page);
        var store = new Uri(page.Url).Segments[^1];
        await Floor.Turn(page, $"{server.Url}/store/{store}/plan");
        await page.Locator("#board").WaitForAsync();
        return $"/api/stores/{store}/layout";
    }

    private static async Task Save(IPage page)
    {
        await page.Locator("#save").ClickAsync();
        await Assertions.Expect(page.Locator("#plan-state")).ToContainTextAsync("Saved on this device");
    }

    private static async Task Name(IPage page, string name)
    {
        if (!await page.Locator("#field-name").IsVisibleAsync())
        {
            await page.Locator("summary").Filter(new() { HasTextRegex = new("^Choose among all \\d+ things") }).ClickAsync();
            await page.Locator(".things button").First.ClickAsync();
        }

        await page.Locator("#field-name").FillAsync(name);
        await page.Keyboard.PressAsync("Tab");
    }
}
