using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>Text that someone stored is text wherever it is shown, whatever it looks like.</summary>
[Collection(BrowserTests.Name)]
public sealed class StoredTextTests(Chromium chromium)
{
    private const string Markup = "<img src=x onerror='document.hacked=1'><script>document.hacked=1</script>";

    [Fact]
    public async Task Text_ThatLooksLikeMarkup_IsShownAsTextOnEveryScreen()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "markup");
        var page = screens.Page;
        await page.GotoAsync($"{server.Url}/new");
        await page.Locator("#name").FillAsync(Markup);
        await page.Locator("#cases").FillAsync("tag,kind,lengths,refrigerant\n<b>1</b>,open-case,12-12,R-448A\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the store" }).ClickAsync();
        await IsText(page, "onerror");
        await page.Locator("#technician").FillAsync(Markup[..60]);
        await page.Locator("#begin").ClickAsync();
        await page.Locator("#current").WaitForAsync();
        await Floor.Log(page, "0");
        await page.GetByText("Note, photo, skip").ClickAsync();
        await page.Locator("#note").FillAsync(Markup);
        await Floor.Log(page, "9");
        await IsText(page, "<b>1</b>");
        await page.Locator("#tab-answer").ClickAsync();
        await page.GetByText("From 2 readings").WaitForAsync();
        await page.Locator("#tab-end").ClickAsync();
        await Floor.AllSent(page);

        var store = (await page.EvaluateAsync<string>("() => fetch('/api/stores').then(r => r.json()).then(s => s[0].id)"))!;
        await Floor.Turn(page, $"/store/{store}/findings");
        await page.Locator("#new-finding summary").ClickAsync();
        await page.Locator("#found-place").SelectOptionAsync(new SelectOptionValue { Index = 1 });
        await page.Locator("#found-component").FillAsync(Markup[..60]);
        await page.Locator("#found-add").ClickAsync();
        await page.Locator(".record li").WaitForAsync();
        foreach (var part in new[] { "", "/plan", "/route", "/findings", "/report" })
        {
            await Floor.Turn(page, $"/store/{store}{part}");
            await Assertions.Expect(page.Locator("main h1")).ToContainTextAsync("onerror");
            await IsText(page);
        }

        await page.Locator("#draw").ClickAsync();
        await page.Locator(".as-svg").First.WaitForAsync();
        await IsText(page);
        Assert.Equal(0, await page.EvaluateAsync<int>("() => [...document.querySelectorAll('figure.sheet *')].filter(e => e.shadowRoot).reduce((n, e) => n + e.shadowRoot.querySelectorAll('script, foreignObject, img').length, 0)"));
        screens.IsQuiet();
    }

    private static async Task IsText(IPage page, string shown = "")
    {
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync(shown);
        Assert.Equal(0, await page.Locator("main img[src='x'], main script").CountAsync());
        Assert.True(await page.EvaluateAsync<bool>("() => document.hacked === undefined"));
    }
}
