using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What a planner does in the client, step by step, as the tests drive it.</summary>
internal static class Desk
{
    /// <summary>Opens the client, a layout file and a visit's readings.</summary>
    public static async Task OpenSmall(IPage page, string url)
    {
        await page.GotoAsync(url);
        await page.Locator("#layout-open").SetInputFilesAsync(Sample("small.layout.json"));
        await page.Locator("#begin").WaitForAsync();
        await page.Locator("#visit-open").SetInputFilesAsync(Sample("small.readings.csv"));
        await page.GetByText("Read in:").WaitForAsync();
    }

    /// <summary>Path of a sample file.</summary>
    public static string Sample(string name) => Path.Combine(Checkout.Root, "tests", "StoreMap.Web.Tests", "Cases", name);

    /// <summary>Presses the first of some buttons and gives the file that comes of it.</summary>
    public static async Task<string> Download(IPage page, string button)
    {
        var download = page.WaitForDownloadAsync();
        await page.Locator(button).First.ClickAsync();
        return await (await download).PathAsync();
    }
}
