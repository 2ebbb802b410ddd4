using System.Diagnostics;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A technician who has never seen the client: a phone that keeps nothing yet, and a case list in hand.</summary>
[Collection(BrowserTests.Name)]
public sealed class FirstVisitTests(Chromium chromium, ITestOutputHelper output)
{
    private const string CaseList = """
        1A,open-case,12-12-8,A1,A,R-448A
        1B,open-case,12-8,A1,A,R-448A
        2A,door-case,12-12,B1,B,R-448A
        2B,door-case,12-12-12,B1,B,R-448A
        3A,service-case,8-8,A2,A,R-448A
        3B,open-case,12-12,A2,A,R-448A
        4,island-case,8-8,B2,B,R-448A
        W1,walk-in,10x14,B3,B,R-448A
        """;

    // What can be pressed and is smaller than a gloved finger hits, 44 CSS pixels; links within a text aside.
    private const string TooSmall = """
        () => [...document.querySelectorAll('button, a, summary, select, textarea, input, label.tick')].filter(e => {
          const box = e.getBoundingClientRect();
          return box.width > 0 && !e.matches('.skip, p a, label.tick input') && (box.height < 44 || box.width < 44);
        }).map(e => `${e.outerHTML.slice(0, 80)}: ${e.getBoundingClientRect().width} x ${e.getBoundingClientRect().height}`)
        """;

    /// <summary>An unhurried hand: five characters a second, and a second and a half for each key or field that is pressed. What the
    /// machine takes comes on top, in time of the processor, which other work beside it leaves alone. With <c>STOREMAP_LONG=1</c> the hand
    /// really takes its time, and so may the machine.</summary>
    [Fact]
    public async Task FirstReading_FromACaseListOfEightLineUps_IsKeptWithinFiveMinutes()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        var system = await chromium.Browser.NewBrowserCDPSessionAsync();
        var (before, clock) = (await RouteTests.Processor(system), Stopwatch.StartNew());
        async Task<double> Machine() => Effort.Long ? clock.Elapsed.TotalSeconds : await RouteTests.Processor(system) - before;
        var hand = new UnhurriedHand();
        await page.GotoAsync(server.Url);
        await hand.Press(page.GetByRole(AriaRole.Link, new() { Name = "New store from a case list" }));
        await hand.Type(page.Locator("#name"), "Birch Lane Market");
        await hand.Type(page.Locator("#cases"), CaseList.ReplaceLineEndings("\n"));
        await hand.Press(page.GetByRole(AriaRole.Button, new() { Name = "Make the store" }));
        await hand.Type(page.Locator("#technician"), "Ada Brook");
        await hand.Press(page.Locator("#begin"));
        await hand.Press(page.Locator("#key-48"));
        await hand.Press(page.Locator("#save"));
        await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync("Zero: 0 ppm kept");
        var zeroed = hand.Seconds + await Machine();
        await hand.Press(page.Locator("#key-50"));
        await hand.Press(page.Locator("#save"));
        await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync("air: 2 ppm kept");
        var seconds = hand.Seconds + await Machine();
        output.WriteLine(FormattableString.Invariant($"{hand.Presses} presses, {hand.Characters} characters; zero kept after {zeroed:0} s, first reading of the store's air after {seconds:0} s, of which the machine took {clock.Elapsed.TotalSeconds - hand.Waited:0.0} s."));
        Assert.InRange(seconds, 0, 300);
    }

    [Fact]
    public async Task Phone_WhatWasKeptAndWhereToGoBack_StandOnTheScreen()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        await Floor.Begin(page);
        await Floor.Log(page, "0");
        await Assertions.Expect(page.Locator("#saved")).ToBeInViewportAsync(new() { Ratio = 1 });
        await page.Locator("#hit").ClickAsync();
        await Assertions.Expect(page.Locator("#go-back")).ToBeInViewportAsync(new() { Ratio = 1 });
    }

    [Fact]
    public async Task Phone_EverythingThatIsPressed_IsLargeEnoughForAGlove()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        List<string> small = [];
        async Task Look(string path, string shown)
        {
            if (path.Length > 0) await Floor.Turn(page, path);
            await page.Locator(shown).First.WaitForAsync();
            await Floor.PressAll(page.Locator("main details:not([open]) > summary"));
            small.AddRange((await page.EvaluateAsync<string[]>(TooSmall)).Select(s => $"{page.Url}: {s}"));
        }

        await page.GotoAsync(server.Url);
        await Look("", "#demo");
        await Look("/new", "#cases");
        await Floor.Turn(page, "/");
        await Floor.MakeStore(page);
        await Look("", "#begin");
        await Floor.Begin(page);
        await Look("", "#current");
        await Floor.Log(page, "0");
        await page.Locator("#tab-answer").ClickAsync();
        await Look("", "#answer-state");
        await page.Locator("#tab-paper").ClickAsync();
        await Look("", "#paper-0");
        await page.Locator("#tab-end").ClickAsync();
        await Look("", "#close");
        await Look("/device", "#send");
        Assert.True(small.Count == 0, string.Join(Environment.NewLine, small));
    }

    [Fact]
    public async Task Fans_PutBack_ShowAsOnAgain()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        await Floor.Begin(page);
        var off = page.GetByRole(AriaRole.Button, new() { Name = "Off", Exact = true });
        while (await off.IsDisabledAsync()) await page.GetByLabel("Next point").ClickAsync();
        await off.ClickAsync();
        await page.Locator("#confirm-off").ClickAsync();
        var on = page.GetByRole(AriaRole.Button, new() { Name = "On", Exact = true });
        await Assertions.Expect(on).ToHaveAttributeAsync("aria-pressed", "false");
        await page.Locator(".restored").ClickAsync();
        await Assertions.Expect(on).ToHaveAttributeAsync("aria-pressed", "true");
    }

    /// <summary>The journal tells of a stop with a number, of a reading with the text that was typed; the end of the visit lists both.</summary>
    [Fact]
    public async Task Visit_WithWorkStopped_CanBeEnded()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "stop");
        var page = screens.Page;
        await Floor.MakeStore(page, server.Url);
        await Floor.Begin(page, range: "10000");
        await Floor.Log(page, "0");
        await Floor.Log(page, "1");
        foreach (var digit in "1500") await page.Locator($"#key-{(int)digit}").ClickAsync();
        await page.Locator("#save").ClickAsync();
        await page.Locator("#stop-done").WaitForAsync();
        await screens.Look("out");
        await page.Locator("#stop-done").ClickAsync();
        await page.Locator("#tab-end").ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("work stopped once");
        await page.Locator("#close").ClickAsync();
        await page.Locator("#closed").WaitForAsync();
        await page.ReloadAsync();
        await page.Locator("#tab-end").ClickAsync();
        await page.Locator("#closed").WaitForAsync();
        await Assertions.Expect(page).ToHaveTitleAsync("Survey · StoreMap");
        screens.IsQuiet();
    }
}
