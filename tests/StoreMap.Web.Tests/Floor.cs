using System.Text.Json;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What a technician does in the client, step by step, as the tests drive it.</summary>
internal static class Floor
{
    /// <summary>Opens the client and makes a store of the example case list.</summary>
    public static async Task MakeStore(IPage page, string url)
    {
        await page.GotoAsync(url);
        await page.GetByRole(AriaRole.Link, new() { Name = "New store from a case list" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Fill in an example" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the store" }).ClickAsync();
        await page.Locator("#begin").WaitForAsync();
    }

    /// <summary>Begins a visit in the open store; returns the survey's id.</summary>
    public static async Task<string> Begin(IPage page)
    {
        await page.Locator("#technician").FillAsync("Ada Brook");
        await page.Locator("#begin").ClickAsync();
        await page.Locator("#current").WaitForAsync();
        return new Uri(page.Url).Segments[^1];
    }

    /// <summary>Enters a reading on the pad and waits until it is shown as kept.</summary>
    public static async Task Log(IPage page, string digits)
    {
        var before = await page.Locator("#progress").InnerTextAsync();
        foreach (var digit in digits) await page.Locator($"#key-{(int)digit}").ClickAsync();
        await page.Locator("#save").ClickAsync();
        await Assertions.Expect(page.Locator("#progress")).Not.ToHaveTextAsync(before);
    }

    /// <summary>How many points the client shows as done.</summary>
    public static async Task<int> Done(IPage page) => int.Parse((await page.Locator("#progress").InnerTextAsync()).Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Waits until the client says that all is sent.</summary>
    public static Task AllSent(IPage page) => Assertions.Expect(page.Locator("a.stand")).ToHaveTextAsync("All sent", new() { Timeout = 60_000 });

    /// <summary>Waits until the browser keeps the whole client.</summary>
    public static async Task ReadyForOffline(IPage page)
    {
        await page.EvaluateAsync("() => navigator.serviceWorker.ready.then(() => true)");
        await page.WaitForFunctionAsync("() => navigator.serviceWorker.controller !== null");
    }

    /// <summary>Readings of a survey as the server has it.</summary>
    public static async Task<int> OnServer(ServerProcess server, string survey)
    {
        using var json = JsonDocument.Parse(await server.Get($"/api/surveys/{survey}/survey.json"));
        return json.RootElement.GetProperty("readings").GetArrayLength();
    }
}
