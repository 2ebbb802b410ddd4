using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What a technician does in the client, step by step, as the tests drive it.</summary>
internal static class Floor
{
    /// <summary>A case list of one case and two walk-ins.</summary>
    public const string TwoWalkIns = "1A,open-case,12,R-448A\nW1,walk-in,10x14,R-448A\nW2,walk-in,10x14,R-448A\n";

    private const string IsMarked = "mark => fetch('/app.css').then(r => r.text()).then(t => t.includes(mark))";

    /// <summary>Turns to another part of the client, which is open, as its links do and without loading it anew.</summary>
    /// <param name="page">The page.</param>
    /// <param name="address">Whole, or from the first slash.</param>
    public static async Task Turn(IPage page, string address)
    {
        await page.EvaluateAsync("address => { document.querySelector('main > *').dataset.left = ''; Blazor.navigateTo(address); }", address);
        await Assertions.Expect(page.Locator("main > [data-left]")).ToHaveCountAsync(0);
    }

    /// <summary>Opens the client and makes a store of the example case list.</summary>
    public static async Task MakeStore(IPage page, string url)
    {
        await page.GotoAsync(url);
        await MakeStore(page);
    }

    /// <summary>Makes a store of the example case list from the list of stores.</summary>
    /// <param name="page">The page.</param>
    /// <param name="look">Called with the example filled in; null for nothing.</param>
    public static async Task MakeStore(IPage page, Func<Task>? look = null)
    {
        await page.GetByRole(AriaRole.Link, new() { Name = "New store from a case list" }).ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Fill in an example" }).ClickAsync();
        if (look is not null) await look();
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the store" }).ClickAsync();
        await page.Locator("#begin").WaitForAsync();
    }

    /// <summary>Makes a store of so many cases, 36 ft each.</summary>
    public static Task MakeStore(IPage page, string url, int cases) =>
        MakeStore(page, url, string.Concat(Enumerable.Range(1, cases).Select(i => FormattableString.Invariant($"{i},open-case,12-12-12,R-448A\n"))));

    /// <summary>Makes a store of the lines of a case list: tag, kind, lengths, refrigerant.</summary>
    public static async Task MakeStore(IPage page, string url, string cases)
    {
        await page.GotoAsync($"{url}/new");
        await page.Locator("#name").FillAsync("Long Row Foods");
        await page.Locator("#cases").FillAsync("tag,kind,lengths,refrigerant\n" + cases);
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the store" }).ClickAsync();
        await page.Locator("#begin").WaitForAsync();
    }

    /// <summary>Begins a visit in the open store; returns the survey's id.</summary>
    /// <param name="page">The page.</param>
    /// <param name="range">Up to where the monitor shows, ppm; null for what is filled in.</param>
    public static async Task<string> Begin(IPage page, string? range = null)
    {
        await page.Locator("#technician").FillAsync("Ada Brook");
        if (range is not null) await page.Locator("#range").FillAsync(range);
        await page.Locator("#begin").ClickAsync();
        await page.Locator("#current").WaitForAsync();
        return new Uri(page.Url).Segments[^1];
    }

    /// <summary>Steps to the first point of a tag, once the points are in walking order: put into it meanwhile, they would change places.</summary>
    public static async Task To(IPage page, string tag)
    {
        await page.Locator("#tab-paper").ClickAsync();
        await page.Locator("#paper-0").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Log", Exact = true }).ClickAsync();
        var points = int.Parse((await page.Locator("#progress").InnerTextAsync()).Split(' ')[^1], CultureInfo.InvariantCulture);
        for (var steps = 0; !(await page.Locator("#current").InnerTextAsync()).StartsWith(tag, StringComparison.Ordinal); steps++)
        {
            Assert.InRange(steps, 0, points);
            await page.GetByLabel("Next point").ClickAsync();
        }
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

    /// <summary>Waits until so many points are shown as done.</summary>
    public static Task IsDone(IPage page, int points) => Assertions.Expect(page.Locator("#progress")).ToHaveTextAsync(new Regex(FormattableString.Invariant($"^{points} of ")));

    /// <summary>Waits until the client says that all is sent.</summary>
    public static async Task AllSent(IPage page)
    {
        await Exchange(page);
        await Assertions.Expect(page.Locator("a.stand")).ToHaveTextAsync("All sent");
    }

    /// <summary>Has the client send and fetch now, as it does when the browser tells that the network is back, and not only in its next round.</summary>
    public static Task Exchange(IPage page) => page.EvaluateAsync("() => { dispatchEvent(new Event('online')); }");

    /// <summary>Waits until the browser's database has a record as it is to be: a choice that needs no button is kept a moment after it.</summary>
    /// <param name="page">The page.</param>
    /// <param name="part">Part of the database.</param>
    /// <param name="id">The record's id.</param>
    /// <param name="holds">A function of the record, in the page's language.</param>
    public static Task IsKept(IPage page, string part, string id, string holds) => Comes(page, $$"""
        () => new Promise((ok, no) => {
          const asked = indexedDB.open('storemap');
          asked.onerror = no;
          asked.onsuccess = () => {
            asked.result.transaction('{{part}}').objectStore('{{part}}').get('{{id}}').onsuccess = e => {
              asked.result.close();
              ok(!!e.target.result && ({{holds}})(e.target.result));
            };
          };
        })
        """);

    /// <summary>Waits until a function of the page, which may answer later, gives true. A page that begins anew meanwhile is asked again.</summary>
    /// <remarks>The library's own waiting takes an answer that is yet to come for true.</remarks>
    public static async Task Comes(IPage page, string function, object? arg = null) => Assert.True(await Wait.Until(() => Is(page, function, arg), holds => holds), function);

    private static async Task<bool> Is(IPage page, string function, object? arg)
    {
        try
        {
            return await page.EvaluateAsync<bool>(function, arg);
        }
        catch (PlaywrightException e) when (e.Message.Contains("context was destroyed", StringComparison.Ordinal))
        {
            return false;
        }
    }

    /// <summary>Presses each of some buttons until it is none of them any more.</summary>
    public static async Task PressAll(ILocator buttons)
    {
        for (var left = await buttons.CountAsync(); left > 0; left--)
        {
            await buttons.First.ClickAsync();
            await Assertions.Expect(buttons).ToHaveCountAsync(left - 1);
        }
    }

    /// <summary>Waits until the browser keeps the whole client.</summary>
    public static async Task ReadyForOffline(IPage page)
    {
        await page.EvaluateAsync("() => navigator.serviceWorker.ready.then(() => true)");
        await page.WaitForFunctionAsync("() => navigator.serviceWorker.controller !== null");
    }

    /// <summary>Opens the page anew until the new version is offered, takes it, and waits until the page has begun anew with it.</summary>
    public static async Task UseNewVersion(IPage page)
    {
        await page.ReloadAsync();
        await page.EvaluateAsync("() => { document.before = true; }");
        await page.GetByRole(AriaRole.Button, new() { Name = "Use it now" }).ClickAsync();
        await page.WaitForFunctionAsync("() => !document.before");
        await page.Locator("#progress").WaitForAsync();
        await GetsNewVersion(page);
    }

    /// <summary>True when the page's files are those of the newer version.</summary>
    public static Task<bool> HasNewVersion(IPage page) => page.EvaluateAsync<bool>(IsMarked, Wire.Mark);

    /// <summary>Waits until the page's files are those of the newer version.</summary>
    public static Task GetsNewVersion(IPage page) => Comes(page, IsMarked, Wire.Mark);

    /// <summary>What was typed as readings, as the server's journal has it, by device and in each device's order.</summary>
    public static async Task<IReadOnlyList<(string Device, string Ppm)>> Typed(ServerProcess server, string survey) =>
        [.. (await Events(server, survey)).Where(e => e.GetProperty("kind").GetString() == "reading").Select(e => (e.GetProperty("device").GetString()!, e.GetProperty("body").GetProperty("ppm").GetString()!))];

    /// <summary>The journal's entries as the server has them, by device and in each device's order.</summary>
    public static async Task<IReadOnlyList<JsonElement>> Events(ServerProcess server, string survey)
    {
        var all = new List<JsonElement>();
        for (long after = 0; ;)
        {
            using var page = JsonDocument.Parse(await server.Get(FormattableString.Invariant($"/api/surveys/{survey}/events?after={after}")));
            if (page.RootElement.GetArrayLength() == 0) return [.. all.OrderBy(e => e.GetProperty("device").GetString(), StringComparer.Ordinal).ThenBy(e => e.GetProperty("number").GetInt32())];
            foreach (var received in page.RootElement.EnumerateArray())
            {
                after = received.GetProperty("received").GetInt64();
                using var e = JsonDocument.Parse(received.GetProperty("document").GetString()!);
                all.Add(e.RootElement.Clone());
            }
        }
    }

    /// <summary>Readings of a survey as the server has it.</summary>
    public static async Task<int> OnServer(ServerProcess server, string survey)
    {
        using var json = JsonDocument.Parse(await server.Get($"/api/surveys/{survey}/survey.json"));
        return json.RootElement.GetProperty("readings").GetArrayLength();
    }

    /// <summary>Probe points that the server has a reading of.</summary>
    public static async Task<int> PointsOnServer(ServerProcess server, string survey)
    {
        using var json = JsonDocument.Parse(await server.Get($"/api/surveys/{survey}/survey.json"));
        return json.RootElement.GetProperty("readings").EnumerateArray().Select(r => r.GetProperty("point").GetString()).Distinct().Count();
    }

    /// <summary>Goes to the first point, from where others are looked for.</summary>
    public static async Task Back(IPage page)
    {
        var previous = page.GetByLabel("Previous point");
        for (var steps = 0; !(await page.Locator("#current").InnerTextAsync()).StartsWith("Zero", StringComparison.Ordinal); steps++)
        {
            Assert.InRange(steps, 0, 60);
            await previous.ClickAsync();
        }
    }
}
