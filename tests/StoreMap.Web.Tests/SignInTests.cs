using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The client of a server that others reach too: over HTTPS, and what is logged is sent once somebody has signed in.</summary>
[Collection(BrowserTests.Name)]
public sealed class SignInTests(Chromium chromium)
{
    [Fact]
    public async Task Readings_LoggedBeforeAnybodySignedIn_AreSentAfterwards()
    {
        await using var server = await ServerProcess.Start(others: true);
        await server.Admit("Ada Brook", "office", "four cold words here");
        await using var screens = await Screens.Open(chromium, "sign-in");
        var page = screens.Page;
        await Floor.MakeStore(page, server.Url);
        await Floor.Begin(page);
        await Floor.Log(page, "7");
        var stand = page.Locator("a.stand");
        await Assertions.Expect(stand).ToContainTextAsync("Sign in");
        await stand.ClickAsync();
        var passphrase = page.Locator("#passphrase");
        await passphrase.WaitForAsync();
        await screens.Look("asked");

        await page.Locator("#name").FillAsync("Ada Brook");
        await passphrase.FillAsync("four warm words here");
        await page.Keyboard.PressAsync("Enter");
        await page.Locator("form [role=alert]").WaitForAsync();
        await screens.Look("refused");

        await passphrase.FillAsync("four cold words here");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(passphrase).ToHaveCountAsync(0);
        await Floor.AllSent(page);
        await page.Locator("#devices").WaitForAsync();
        await screens.Look("done");
    }
}
