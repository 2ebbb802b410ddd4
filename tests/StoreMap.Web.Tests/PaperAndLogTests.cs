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
        var survey = await Floor.Begin(page, range: "100000");
        await page.Locator("#tab-paper").ClickAsync();
        await page.Locator("#paper-0").WaitForAsync();
        await page.Locator("#paper-day").FillAsync("2026-03-04");
        await page.GetByLabel("Time at stop 2", new() { Exact = true }).FillAsync("5:40");

        // Enter goes down the sheet; what is no reading stays where it is and is said so.
        await page.Locator("#paper-0").FillAsync("0");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#paper-1")).ToBeFocusedAsync();
        foreach (var typed in new[] { "<1", "70", "many", "8,5" })
        {
            await page.Keyboard.TypeAsync(typed);
            await page.Keyboard.PressAsync("Enter");
        }

        await Assertions.Expect(page.Locator("#paper-3")).ToHaveAttributeAsync("aria-invalid", "true");
        await Assertions.Expect(page.Locator("#paper-3")).ToHaveValueAsync("many");
        await Assertions.Expect(page.Locator("#paper-wrong")).ToContainTextAsync("stop 4.");
        await Assertions.Expect(page.Locator("#wrong-3")).ToContainTextAsync("many is no reading");
        await Floor.IsDone(page, 4);

        // A day to come is nobody's, and a number at which work stops says so where it stands.
        var day = await page.Locator("#paper-day").InputValueAsync();
        await page.Locator("#paper-day").FillAsync("2199-01-01");
        await page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(page.Locator("#paper-kept")).ToContainTextAsync("still to come");
        await Assertions.Expect(page.Locator("#paper-day")).ToHaveValueAsync(day);
        await page.Locator("#paper-2").FillAsync("90000");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#stop-2")).ToContainTextAsync("stop-work level");

        // A number put right takes the place of the wrong one; a time typed afterwards counts for it; all of it outlives a look elsewhere.
        await page.Locator("#paper-2").FillAsync("7");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#paper-kept")).ToContainTextAsync("7 ppm kept");
        await Assertions.Expect(page.Locator("#stop-2")).ToHaveCountAsync(0);
        await page.GetByLabel("Time at stop 1", new() { Exact = true }).FillAsync("525");
        await page.Keyboard.PressAsync("Enter");
        await page.GetByLabel("Time at stop 6", new() { Exact = true }).FillAsync("late");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#paper-kept")).ToContainTextAsync("late is no time");
        await page.Locator("#tab-end").ClickAsync();
        await page.Locator("#tab-paper").ClickAsync();
        await Assertions.Expect(page.Locator("#paper-3")).ToHaveValueAsync("many");
        await Assertions.Expect(page.Locator("#paper-wrong")).ToContainTextAsync("stop 4, stop 6.");
        await Assertions.Expect(page.GetByLabel("Time at stop 2", new() { Exact = true })).ToHaveValueAsync("5:40");

        // What was read at a wrong time, there or below, waits for the right one.
        await page.Locator("#paper-5").FillAsync("3");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#wrong-5")).ToContainTextAsync("waits until the time");
        await page.Locator("#paper-6").FillAsync("4");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#paper-kept")).ToContainTextAsync("See stop 6");
        await screens.Look("paper");
        await page.GetByLabel("Time at stop 6", new() { Exact = true }).FillAsync("550");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#paper-wrong")).ToContainTextAsync("stop 4.");
        await Floor.AllSent(page);
        var readings = await Readings(server, survey);
        Assert.Equal(
            ["0 2026-03-04T05:25", "3 2026-03-04T05:50", "4 2026-03-04T05:50", "7 2026-03-04T05:40", "8.5 2026-03-04T05:40", "<1 2026-03-04T05:40"],
            readings.Select(r => $"{r.GetProperty("ppm").GetString()} {r.GetProperty("time").GetString()}").Order(StringComparer.Ordinal));
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
        await page.Keyboard.PressAsync("w");
        await page.GetByText("for the monitor's log").WaitForAsync();
        await screens.Look("walk");
        await page.EvaluateAsync("() => { globalThis.ahead += 30000; }");
        await page.Locator("#walk").ClickAsync();
        await page.GetByText("for the monitor's log").WaitForAsync(new() { State = WaitForSelectorState.Detached });
        Assert.True(await Wait.Until(() => Floor.Done(page), now => now > done) > done);
        var walked = page.Locator(".plan .point.walked");
        await Assertions.Expect(walked).Not.ToHaveCountAsync(0);

        // The marks' own times: how long the hand takes is the machine's affair.
        await Floor.AllSent(page);
        var marks = (await Floor.Events(server, survey)).Where(e => e.GetProperty("kind").GetString() == "mark").Select(e => e.GetProperty("time").GetDateTimeOffset()).ToList();
        Assert.Equal(2, marks.Count);
        var (began, ended) = (marks[0], marks[1]);
        var log = new StringBuilder("time,ppm\n");
        var middle = began.AddSeconds(5) + ((ended - began) / 2);
        for (var t = began.AddSeconds(-30); t < ended.AddSeconds(40); t = t.AddSeconds(1))
            log.Append(CultureInfo.InvariantCulture, $"{t:yyyy-MM-dd'T'HH:mm:ss.fffzzz},{Math.Round(950 * Math.Exp(-Math.Pow((t - middle).TotalSeconds / 4, 2)))}\n");
        await page.Locator("#tab-end").ClickAsync();
        var file = new FilePayload { Name = "log.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(log.ToString()) };
        await Assertions.Expect(page.Locator(".not-walked")).ToHaveCountAsync(1);
        await page.Locator("#monitor-log").SetInputFilesAsync(file);
        await Assertions.Expect(page.Locator("#log-taken")).ToContainTextAsync("readings of the log are kept");
        await Assertions.Expect(page.Locator("#log-taken + ul li").First).ToContainTextAsync("stop-work level");
        await Floor.AllSent(page);
        await screens.Look("log");
        screens.IsQuiet();

        // The line-up is 36 ft long; a reading a foot, and the highest where the gas was.
        var placed = (await Readings(server, survey)).Where(r => r.TryGetProperty("at", out _) && !r.TryGetProperty("point", out _)).ToList();
        Assert.InRange(placed.Count, 25, 40);
        var highest = placed.MaxBy(r => double.TryParse(r.GetProperty("ppm").GetString(), CultureInfo.InvariantCulture, out var ppm) ? ppm : 0);
        Assert.Equal(18, highest.GetProperty("at").GetDouble(), 4.0);

        // The same log once more adds nothing; a walk whose log is here is not taken back.
        await page.Locator("#monitor-log").SetInputFilesAsync(file);
        await Assertions.Expect(page.Locator("#log-taken")).ToHaveTextAsync("These readings are here already.");
        await Assertions.Expect(page.Locator(".not-walked")).ToHaveCountAsync(0);
        await page.Locator("#tab-answer").ClickAsync();
        await Assertions.Expect(page.Locator(".plan .point.read")).Not.ToHaveCountAsync(0);
        await Assertions.Expect(walked).ToHaveCountAsync(0);
    }

    // What counts in the end.
    private static async Task<List<JsonElement>> Readings(ServerProcess server, string survey)
    {
        var events = await Floor.Events(server, survey);
        var withdrawn = events.Where(e => e.GetProperty("kind").GetString() == "withdraw").Select(e => e.GetProperty("body").GetProperty("of").GetString()).ToHashSet();
        return [.. events.Where(e => e.GetProperty("kind").GetString() == "reading" && !withdrawn.Contains(e.GetProperty("id").GetString())).Select(e => e.GetProperty("body"))];
    }
}
