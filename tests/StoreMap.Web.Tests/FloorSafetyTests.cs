using System.Text.Json;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What must not be overlooked on the floor: who is in a walk-in, why work stopped, and which number counts.</summary>
[Collection(BrowserTests.Name)]
public sealed class FloorSafetyTests(Chromium chromium)
{
    private const int MostPoints = 60;

    [Fact]
    public async Task WalkIn_SomebodyInsideTooLong_IsToldOnEveryPartAndKeepsTheVisitOpen()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await page.Clock.InstallAsync();
        await Floor.MakeStore(page, server.Url);
        await Floor.Begin(page);
        await Floor.To(page, "W1");
        await page.Locator("#walk-in-in").ClickAsync();
        var (strip, clock, end) = (page.Locator(".off-strip"), page.Locator(".off-strip .clock"), page.Locator("#close"));
        await Assertions.Expect(strip).ToContainTextAsync("Inside W1");
        await page.GetByLabel("Previous point").ClickAsync();
        await page.Clock.FastForwardAsync("09:00");
        await Assertions.Expect(strip).ToContainTextAsync("of 10:00");
        await page.Clock.FastForwardAsync("02:00");
        await Assertions.Expect(strip).ToContainTextAsync("Come out now");
        await Assertions.Expect(clock).ToHaveCSSAsync("background-color", "rgb(179, 38, 30)");
        await Assertions.Expect(clock).ToBeVisibleAsync();
        foreach (var part in new[] { "answer", "paper", "end" })
        {
            await page.Locator("#tab-" + part).ClickAsync();
            await Assertions.Expect(clock).ToBeVisibleAsync();
        }

        await Assertions.Expect(end).ToBeDisabledAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "The store's page" }).ClickAsync();
        await page.Locator("#begin").WaitForAsync();
        await Assertions.Expect(clock).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Back to the visit" }).ClickAsync();
        await page.Locator(".walk-in-out").ClickAsync();
        await Assertions.Expect(strip).ToHaveCountAsync(0);
        await page.Locator("#tab-end").ClickAsync();
        await Assertions.Expect(end).ToBeEnabledAsync();
    }

    [Fact]
    public async Task StopWork_PageOpenedAgain_StandsUntilItIsAnswered()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        await Floor.Begin(page, range: "10000");
        await Floor.To(page, "1A");
        foreach (var digit in "9400") await page.Locator($"#key-{(int)digit}").ClickAsync();
        await page.Locator("#save").ClickAsync();
        await page.Locator("#stop-done").WaitForAsync();
        var words = await page.Locator(".stop").InnerTextAsync();
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".stop")).ToHaveTextAsync(words, new() { UseInnerText = true });

        // Mistyped, it can still be taken back, and comes again with the right number.
        await page.Locator("#stop-mistyped").ClickAsync();
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync("1A");
        await Assertions.Expect(page.Locator("#current")).Not.ToContainTextAsync("read:");
        await Type(page, "1900");
        await page.Locator("#stop-done").WaitForAsync();
        await page.ReloadAsync();
        await page.Locator("#stop-done").ClickAsync();
        await page.Locator("#current").WaitForAsync();
        await page.ReloadAsync();
        await page.Locator("#current").WaitForAsync();
        await page.Locator("#tab-end").ClickAsync();
        await page.GetByText("entries").ClickAsync();
        await Assertions.Expect(page.Locator(".journal")).ToContainTextAsync("everyone is out and the place is aired");
    }

    [Fact]
    public async Task StopWork_SomebodyInsideAWalkIn_ShowsTheirClock()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await page.Clock.InstallAsync();
        await Floor.MakeStore(page, server.Url, "W1,walk-in,10x14,R-448A\n");
        await Floor.Begin(page);
        await Floor.To(page, "W1");
        await page.Locator("#walk-in-in").ClickAsync();
        await page.Locator(".off-strip .clock").WaitForAsync();
        await Type(page, "900");
        var clock = page.Locator(".stop .inside .clock");
        await Assertions.Expect(clock).ToBeVisibleAsync();
        await page.Clock.FastForwardAsync("11:00");
        await Assertions.Expect(clock).ToHaveCSSAsync("background-color", "rgb(179, 38, 30)");
        await page.Locator(".stop .walk-in-out").ClickAsync();
        await Assertions.Expect(page.Locator(".inside")).ToHaveCountAsync(0);

        // That is no answer to the stop.
        await Assertions.Expect(page.Locator("#stop-done")).ToBeVisibleAsync();
    }

    /// <summary>A monitor that ends at 500 ppm can't show that the limit of 860 ppm is passed.</summary>
    [Fact]
    public async Task OverRange_OfAMonitorThatEndsBelowTheLimit_StopsWorkAndSaysWhatIsKnown()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, "1A,open-case,12,R-448A\n");
        var store = page.Url;
        await Floor.Begin(page, range: "500");
        await Floor.To(page, "1A");

        // A number that the monitor can't have shown is told, not changed, and one key says "over".
        foreach (var digit in "900") await page.Locator($"#key-{(int)digit}").ClickAsync();
        await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync("900 is more than the monitor shows (500 ppm)");
        await Assertions.Expect(page.Locator("#save")).ToBeDisabledAsync();
        await page.Locator("#over").ClickAsync();
        await Assertions.Expect(page.Locator("#number")).ToHaveTextAsync(">500");
        await page.Locator("#save").ClickAsync();
        await Assertions.Expect(page.Locator(".stop")).ToContainTextAsync("over 500 ppm R-448A");
        await Assertions.Expect(page.Locator(".stop")).ToContainTextAsync("Over what the monitor shows, 500 ppm: it may be above the limit of 860 ppm");
        await page.Locator("#stop-done").ClickAsync();

        // What the hose still holds is told at once, until the monitor was back at clean air.
        await Assertions.Expect(page.Locator("#clearing")).ToContainTextAsync("Until it shows 2 ppm or less");
        await Floor.Log(page, "40");
        await Assertions.Expect(page.Locator("#clearing")).ToBeVisibleAsync();
        await Floor.Log(page, "0");
        await Assertions.Expect(page.Locator("#clearing")).ToHaveCountAsync(0);

        // From paper it is told in its row.
        await page.Locator("#tab-paper").ClickAsync();
        var row = page.Locator(".from-paper tr", new() { HasText = "1A" }).Last;
        await row.GetByLabel("ppm at").FillAsync("900");
        await row.GetByLabel("ppm at").BlurAsync();
        await Assertions.Expect(row).ToContainTextAsync("Write >500 where it was over its range.");
        await row.GetByLabel("ppm at").FillAsync(">500");
        await row.GetByLabel("ppm at").BlurAsync();
        await Assertions.Expect(row).ToContainTextAsync("may be above the limit of 860 ppm: nobody goes back in");

        // The range is asked once for a monitor: the next visit begins with it. Given wrong, it is put right among the notes.
        await page.GetByRole(AriaRole.Button, new() { Name = "Log", Exact = true }).ClickAsync();
        await page.Locator("details.more > summary").ClickAsync();
        await page.Locator("#range").FillAsync("2000");
        await page.Locator("#range").BlurAsync();
        await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync("Noted: the monitor shows up to 2000 ppm");
        await Floor.Turn(page, store);
        await Assertions.Expect(page.Locator("#range")).ToHaveValueAsync("500");
    }

    [Fact]
    public async Task Reading_TypedAgainAtAPoint_TakesThePlaceOfTheFirst()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        var survey = await Floor.Begin(page);
        await Floor.Log(page, "0");
        await Floor.To(page, "1A");
        await Floor.Log(page, "4");
        await page.GetByLabel("Previous point").ClickAsync();
        var saved = page.Locator("#saved");

        // What is typed and not kept is asked about, however often a glove presses, and does not go along to another point.
        await page.Locator("#key-55").ClickAsync();
        var here = await page.Locator("#spot").InnerTextAsync();
        await page.GetByLabel("Next point").ClickAsync();
        await page.GetByLabel("Next point").ClickAsync();
        await Assertions.Expect(saved).ToHaveTextAsync("7 is typed, not kept. Keep it, or");
        await Assertions.Expect(page.Locator("#spot")).ToHaveTextAsync(here);

        // Another part of the visit is no other point.
        await page.Locator("#tab-answer").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Log", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("#number")).ToHaveTextAsync("7");
        await page.GetByLabel("Next point").ClickAsync();
        await page.Locator("#drop").ClickAsync();
        await Assertions.Expect(page.Locator("#spot")).Not.ToHaveTextAsync(here);
        await Assertions.Expect(page.Locator("#number")).ToHaveTextAsync("–");
        await page.GetByLabel("Previous point").ClickAsync();
        await Type(page, "5");
        await Assertions.Expect(saved).ToContainTextAsync("5 ppm kept on this device in place of 4");
        Assert.Equal(["<1", "5"], await Ppm());
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync("read: 4 ppm");
        Assert.Equal(["<1", "4"], await Ppm());

        // In other air it is another reading.
        await page.GetByRole(AriaRole.Button, new() { Name = "Off", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("#confirm-off")).ToBeFocusedAsync();
        await page.Locator("#confirm-off").ClickAsync();
        await Type(page, "9");
        await Assertions.Expect(saved).Not.ToContainTextAsync("in place");
        Assert.Equal(["<1", "4", "9"], await Ppm());

        async Task<IEnumerable<string?>> Ppm()
        {
            await Floor.AllSent(page);
            using var json = JsonDocument.Parse(await server.Get($"/api/surveys/{survey}/survey.json"));
            return [.. json.RootElement.GetProperty("readings").EnumerateArray().Select(r => r.GetProperty("ppm").ToString())];
        }
    }

    [Fact]
    public async Task HitNow_WhileALineUpIsWalked_SendsNobodyBack()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        await Floor.Begin(page);
        await Floor.To(page, "1A");
        for (var steps = 0; !await page.Locator("#walk").IsVisibleAsync(); steps++)
        {
            Assert.InRange(steps, 0, MostPoints);
            await page.GetByLabel("Next point").ClickAsync();
        }

        await page.Locator("#walk").ClickAsync();
        await page.Locator("#hit").ClickAsync();
        await Assertions.Expect(page.Locator("#go-back")).ToContainTextAsync("The monitor's log has it");
        await page.Locator("#walk").ClickAsync();
        await Assertions.Expect(page.Locator("#go-back")).ToHaveCountAsync(0);

        // The line offers to take back the walk, not a reading before it.
        await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync("1A: walked, noted on this device");
        var walked = await Floor.Done(page);
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync("Taken back: the walk of 1A");
        Assert.True(await Wait.Until(() => Floor.Done(page), now => now < walked) < walked);

        // Walked again, it can also be said among the walks, and no more once the visit has ended.
        await page.Locator("#walk").ClickAsync();
        await page.Locator("#walk").ClickAsync();
        await page.Locator("#tab-end").ClickAsync();
        await page.Locator("#close").ClickAsync();
        await page.Locator("#closed").WaitForAsync();
        await Assertions.Expect(page.Locator(".not-walked")).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Button, new() { Name = "Log", Exact = true }).ClickAsync();
        await page.Locator("#go-on").ClickAsync();
        await page.Locator("#tab-end").ClickAsync();
        await page.Locator(".not-walked").ClickAsync();
        await Assertions.Expect(page.Locator(".not-walked")).ToHaveCountAsync(0);
    }

    private static async Task Type(IPage page, string digits)
    {
        foreach (var digit in digits) await page.Locator($"#key-{(int)digit}").ClickAsync();
        await page.Locator("#save").ClickAsync();
    }
}
