using System.Globalization;
using System.Text;
using System.Text.Json;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>Readings that were not typed at the point: from the paper sheet, and from the log of a monitor that was carried along a line-up.</summary>
[Collection(BrowserTests.Name)]
public sealed class PaperAndLogTests(Chromium chromium)
{
    [Fact]
    public async Task Paper_TypedInTheSheetsOrder_IsKeptWithItsTimes()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "floor");
        var page = screens.Page;
        await Floor.MakeStore(page, server.Url);
        var survey = await Floor.Begin(page);
        await page.Locator("#tab-paper").ClickAsync();
        await page.Locator("#paper-0").WaitForAsync();
        await page.Locator("#paper-day").FillAsync("2026-03-04");
        await page.GetByLabel("Time at stop 2", new() { Exact = true }).FillAsync("5:40");

        // Enter goes down the sheet; what is no reading stays where it is and is said so.
        await page.Locator("#paper-0").FillAsync("0");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#paper-1")).ToBeFocusedAsync();
        foreach (var typed in new[] { "<1", "7", "many" })
        {
            await page.Keyboard.TypeAsync(typed);
            await page.Keyboard.PressAsync("Enter");
        }

        await Assertions.Expect(page.Locator("#paper-3")).ToHaveAttributeAsync("aria-invalid", "true");
        await Assertions.Expect(page.Locator("#paper-kept")).ToContainTextAsync("many is no reading");
        Assert.Equal(3, await Floor.Done(page));
        await screens.Look("paper");
        await Floor.AllSent(page);
        var readings = await Readings(server, survey);
        Assert.Equal(["0", "<1", "7"], readings.Select(r => r.GetProperty("ppm").GetString()));
        Assert.Equal([null, "2026-03-04T05:40:00", "2026-03-04T05:40:00"], readings.Select(r => r.TryGetProperty("time", out var time) ? time.GetString()![..19] : null));
    }

    /// <summary>The log is of invented gas about the middle of a line-up that was walked in 30 s, seen by a monitor with a delay of 5 s.</summary>
    [Fact]
    public async Task Log_OfALineUpWalkedWithTwoMarks_IsPutInPlace()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "floor");
        var page = screens.Page;
        await page.AddInitScriptAsync("{ const Real = Date; globalThis.ahead = 0; Date = class extends Real { constructor(...a) { if (a.length) super(...a); else super(Real.now() + globalThis.ahead); } static now() { return Real.now() + globalThis.ahead; } }; }");
        await Floor.MakeStore(page, server.Url, cases: 3);
        var survey = await Floor.Begin(page);
        await Floor.Log(page, "0");
        while (!await page.Locator("#walk").IsVisibleAsync()) await page.GetByRole(AriaRole.Button, new() { Name = "Next point" }).ClickAsync();
        var done = await Floor.Done(page);
        var began = await Now(page);
        await page.Keyboard.PressAsync("w");
        await page.GetByText("for the monitor's log").WaitForAsync();
        await screens.Look("walk");
        await page.EvaluateAsync("() => { globalThis.ahead += 30000; }");
        var ended = await Now(page);
        await page.Locator("#walk").ClickAsync();
        await page.GetByText("for the monitor's log").WaitForAsync(new() { State = WaitForSelectorState.Detached });
        Assert.True(await Floor.Done(page) > done);

        var log = new StringBuilder("time,ppm\n");
        var middle = began.AddSeconds(5) + ((ended - began) / 2);
        for (var t = began.AddSeconds(-30); t < ended.AddSeconds(40); t = t.AddSeconds(1))
            log.Append(CultureInfo.InvariantCulture, $"{t:yyyy-MM-dd'T'HH:mm:ss.fffzzz},{Math.Round(80 * Math.Exp(-Math.Pow((t - middle).TotalSeconds / 4, 2)))}\n");
        await page.Locator("#tab-end").ClickAsync();
        var file = new FilePayload { Name = "log.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(log.ToString()) };
        await page.Locator("#monitor-log").SetInputFilesAsync(file);
        await Assertions.Expect(page.Locator("#log-taken")).ToContainTextAsync("readings of the log are kept");
        await Floor.AllSent(page);
        await screens.Look("log");
        screens.IsQuiet();

        // The line-up is 36 ft long; a reading a foot, and the highest where the gas was.
        var placed = (await Readings(server, survey)).Where(r => r.TryGetProperty("at", out _) && !r.TryGetProperty("point", out _)).ToList();
        Assert.InRange(placed.Count, 25, 40);
        var highest = placed.MaxBy(r => double.TryParse(r.GetProperty("ppm").GetString(), CultureInfo.InvariantCulture, out var ppm) ? ppm : 0);
        Assert.Equal(18, highest.GetProperty("at").GetDouble(), 4.0);

        // The same log once more adds nothing.
        await page.Locator("#monitor-log").SetInputFilesAsync(file);
        await Assertions.Expect(page.Locator("#log-taken")).ToContainTextAsync("0 readings of the log are kept");
    }

    private static async Task<DateTimeOffset> Now(IPage page) => DateTimeOffset.FromUnixTimeMilliseconds((long)await page.EvaluateAsync<double>("() => Date.now()"));

    private static async Task<List<JsonElement>> Readings(ServerProcess server, string survey)
    {
        var noted = new List<(int Number, JsonElement Body)>();
        for (long after = 0; ;)
        {
            using var page = JsonDocument.Parse(await server.Get(FormattableString.Invariant($"/api/surveys/{survey}/events?after={after}")));
            if (page.RootElement.GetArrayLength() == 0) return [.. noted.OrderBy(n => n.Number).Select(n => n.Body)];
            foreach (var received in page.RootElement.EnumerateArray())
            {
                after = received.GetProperty("received").GetInt64();
                var e = JsonDocument.Parse(received.GetProperty("document").GetString()!).RootElement;
                if (e.GetProperty("kind").GetString() == "reading") noted.Add((e.GetProperty("number").GetInt32(), e.GetProperty("body")));
            }
        }
    }
}
