using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What a planner does in the client, step by step, as the tests drive it.</summary>
internal static class Desk
{
    /// <summary>Opens the client and the demo store, one press away.</summary>
    public static async Task OpenDemo(IPage page, string url)
    {
        await page.GotoAsync(url);
        await page.Locator("#demo").ClickAsync();
        await page.Locator("#begin").WaitForAsync(new() { Timeout = 60_000 });
    }


    /// <summary>Path of a sample file.</summary>
    public static string Sample(string name) => Path.Combine(Checkout.Root, "tests", "StoreMap.Web.Tests", "Cases", name);
}
