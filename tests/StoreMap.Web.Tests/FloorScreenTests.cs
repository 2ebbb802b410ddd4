using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What a technician must see and reach on a phone, whatever stands above it.</summary>
[Collection(BrowserTests.Name)]
public sealed class FloorScreenTests(Chromium chromium)
{
    // The element is what a finger meets at its four corners and in its middle.
    private const string IsOnTop = """
        e => {
          const b = e.getBoundingClientRect();
          return [[0.5, 0.5], [0.05, 0.2], [0.95, 0.2], [0.05, 0.8], [0.95, 0.8]].every(([x, y]) => {
            const met = document.elementFromPoint(b.left + b.width * x, b.top + b.height * y);
            return met === e || e.contains(met);
          });
        }
        """;

    // How much of the plan shows above the keys, pixels.
    private const string PlanShown = "() => document.querySelector('.keys').getBoundingClientRect().top - document.querySelector('svg.plan').getBoundingClientRect().top";

    // The place being read, on the plan and above the keys.
    private const string PointIsShown = """
        () => {
          const ring = document.querySelector('svg.plan .here-ring').getBoundingClientRect(), plan = document.querySelector('svg.plan').getBoundingClientRect();
          return ring.height > 0 && ring.top >= plan.top - 1 && ring.bottom <= document.querySelector('.keys').getBoundingClientRect().top + 1;
        }
        """;

    private const string ZoomCovers = """
        () => {
          const zoom = document.querySelector('.zoom').getBoundingClientRect(), plan = document.querySelector('svg.plan').getBoundingClientRect();
          return zoom.bottom > plan.top + 1 && zoom.top < plan.bottom - 1 && zoom.right > plan.left + 1 && zoom.left < plan.right - 1;
        }
        """;

    [Fact]
    public async Task Phone_UpToTwoThingsOff_ShowsGoingInItsCautionAndThePlanAboveTheKeys()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, Floor.TwoWalkIns);
        await Floor.Begin(page);
        for (var off = 0; ; off++)
        {
            await Floor.Back(page);
            await Floor.To(page, "1A");
            await page.EvaluateAsync("() => scrollTo(0, 0)");
            Assert.InRange(await page.EvaluateAsync<double>(PlanShown), 60, 844);
            Assert.False(await page.EvaluateAsync<bool>(ZoomCovers));
            await Floor.Back(page);
            await Floor.To(page, "W1");
            await page.EvaluateAsync("() => scrollTo(0, 0)");
            Assert.True(await page.Locator("#walk-in-in").EvaluateAsync<bool>(IsOnTop), $"Going in, {off} things off");
            Assert.True(await page.Locator(".where .caution").EvaluateAsync<bool>(IsOnTop), $"The caution, {off} things off");
            if (off == 2) break;
            await page.Locator("details.more:not([open]) > summary").ClickAsync();
            await page.Locator("#off-what").SelectOptionAsync(off == 0 ? "panel-off" : "fans-off");
            await page.Locator("#off").ClickAsync();
            await Assertions.Expect(page.Locator(".off-item")).ToHaveCountAsync(off + 1);
        }
    }

    /// <summary>What is off is one line with its count and the oldest clock there, opened by a press.</summary>
    [Fact]
    public async Task Phone_FourThingsOffAndSomebodyInside_ShowsThePointBeingReadAboveTheKeys()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, Floor.TwoWalkIns);
        await Floor.Begin(page);
        await Floor.To(page, "1A");
        await page.Locator("details.more > summary").ClickAsync();
        foreach (var (n, what) in new[] { "panel-off", "fans-off", "valve-shut", "alarm-muted" }.Index())
        {
            await page.Locator("#off-what").SelectOptionAsync(what);
            await page.Locator("#off").ClickAsync();
            await Assertions.Expect(page.Locator(".off-item")).ToHaveCountAsync(n + 1);
        }

        await Assertions.Expect(page.Locator(".fold")).ToContainTextAsync("4 to put back");
        await IsShown("1A");
        await Floor.Back(page);
        await Floor.To(page, "W1");
        await IsShown("W1");
        await page.Locator("#walk-in-in").ClickAsync();
        await Assertions.Expect(page.Locator(".off-strip > .inside")).ToContainTextAsync("Inside W1");
        await IsShown("inside W1");

        // The worst: inside one, going into the other.
        await Floor.Back(page);
        await Floor.To(page, "W2");
        await IsShown("W2 from W1");
        await Assertions.Expect(page.Locator(".restored").Last).ToBeHiddenAsync();
        await page.Locator(".fold").ClickAsync();
        await Assertions.Expect(page.Locator(".restored").Last).ToBeVisibleAsync();
        await Chromium.IsAccessible(page);
        await page.Locator(".fold").ClickAsync();

        // On every other part each stands with its clock.
        await page.Locator("#tab-end").ClickAsync();
        await Floor.PressAll(page.Locator(".restored:not(.walk-in-out)"));

        async Task IsShown(string at)
        {
            await page.EvaluateAsync("() => scrollTo(0, 0)");
            Assert.True(await page.EvaluateAsync<bool>(PointIsShown), at);
        }
    }

    [Fact]
    public async Task Keys_WhateverTheLineSays_StayWhereTheyAre()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, Floor.TwoWalkIns);
        await Floor.Begin(page);
        await Floor.To(page, "Zero");
        var before = await Top();

        // The longest that the line says, and what it says while one types.
        await Floor.Log(page, "5");
        await Stays("5 ppm kept");
        await page.Locator("#key-60").ClickAsync();
        await Stays("< needs a number");
        await page.Locator("#key-60").ClickAsync();
        foreach (var digit in "1200") await page.Locator($"#key-{(int)digit}").ClickAsync();
        await Stays("1200 is more than the monitor shows");
        await page.Locator("#over").ClickAsync();
        await page.Locator("[aria-label='over range']").ClickAsync();
        for (var digits = 0; digits < 4; digits++) await page.GetByLabel("Delete last digit").ClickAsync();
        await Floor.To(page, "1A");
        await Floor.Log(page, "12");
        await page.GetByLabel("Previous point").ClickAsync();
        foreach (var digit in "13") await page.Locator($"#key-{(int)digit}").ClickAsync();
        await page.Locator("#save").ClickAsync();
        await Stays("in place of 12");

        Task<double> Top() => page.Locator("#key-55").EvaluateAsync<double>("e => e.getBoundingClientRect().top");

        async Task Stays(string says)
        {
            await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync(says);
            Assert.Equal(before, await Top(), 0.6);
            Assert.True(await page.Locator(".saved").EvaluateAsync<bool>("e => e.scrollHeight <= e.clientHeight + 1"), says);
        }
    }
}
