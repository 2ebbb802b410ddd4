using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>What the visit tells and leads back to: what is still off, who is inside, what was passed over, what another device did.</summary>
[Collection(BrowserTests.Name)]
public sealed class FloorCareTests(Chromium chromium)
{
    [Fact]
    public async Task GoingIn_StillInsideAnotherWalkIn_NotesThatThatOneIsLeft()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, Floor.TwoWalkIns);
        var survey = await Floor.Begin(page);
        await Floor.To(page, "W1");
        await page.Locator("#walk-in-in").ClickAsync();
        await Assertions.Expect(page.Locator(".off-strip")).ToContainTextAsync("Inside W1");
        await Floor.Back(page);
        await Floor.To(page, "W2");
        await Assertions.Expect(page.Locator("#walk-in-in")).ToHaveTextAsync("Out of W1, going into W2 now");
        await page.Locator("#walk-in-in").ClickAsync();
        await Assertions.Expect(page.Locator(".off-item")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".off-strip")).ToContainTextAsync("Inside W2");
        await Assertions.Expect(page.Locator("#saved")).ToContainTextAsync("Noted: out of W1, into W2");
        await Floor.AllSent(page);
        var ins = (await Floor.Events(server, survey)).Where(e => e.GetProperty("kind").GetString() == "check-in").Select(e => e.GetProperty("body").GetProperty("in").GetBoolean());
        // Had the page gone in between, a clock would run too many rather than none.
        Assert.Equal([true, true, false], ins);
    }

    [Fact]
    public async Task LeftOff_ClientOpenedAnewOnAnotherPage_StandsThereAndCanBePutBack()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, Floor.TwoWalkIns);
        var store = page.Url;
        var survey = await Floor.Begin(page);
        await Floor.To(page, "1A");
        await page.Locator("details.more > summary").ClickAsync();
        await page.Locator("#off-what").SelectOptionAsync("fans-off");
        await page.Locator("#off").ClickAsync();
        await Assertions.Expect(page.Locator(".off-item")).ToHaveCountAsync(1);
        foreach (var address in new[] { server.Url, store, $"{server.Url}/device" })
        {
            await page.GotoAsync(address);
            await Assertions.Expect(page.Locator(".off-strip")).ToContainTextAsync("Fans off · 1A");
        }

        // The visit opens from there as ever, and goes on where one was.
        await page.GetByRole(AriaRole.Link, new() { Name = "Back to the visit" }).ClickAsync();
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync(new Regex("."));
        await Floor.Log(page, "0");

        // Another visit that is opened meanwhile does not hide it.
        await Floor.Turn(page, store);
        await Floor.Begin(page);
        await page.GotoAsync(server.Url);
        await Assertions.Expect(page.Locator(".off-strip")).ToContainTextAsync("Fans off · 1A");
        await page.Locator(".restored").ClickAsync();
        await Assertions.Expect(page.Locator(".off-strip")).ToHaveCountAsync(0);
        await Floor.AllSent(page);
        Assert.Equal(["left-off", "reading", "restored"], (await Floor.Events(server, survey)).Select(e => e.GetProperty("kind").GetString()!).Where(k => k != "start"));
    }

    [Fact]
    public async Task Log_LastPointDone_LeadsBackToWhatWasPassedOverBeforeTheEnd()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, "1A,open-case,8,R-448A\n");
        await Floor.Begin(page);
        await page.Locator("#tab-paper").ClickAsync();
        await page.Locator("#paper-0").WaitForAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Log", Exact = true }).ClickAsync();
        var points = int.Parse((await page.Locator("#progress").InnerTextAsync()).Split(' ')[^1], System.Globalization.CultureInfo.InvariantCulture);
        await Floor.Log(page, "0");
        var passed = await Here(page);
        await page.GetByLabel("Next point").ClickAsync();
        await page.GetByLabel("Next point").ClickAsync();
        for (var done = 1; done < points - 2; done++)
        {
            await Assertions.Expect(page.Locator("#passed-over")).ToHaveCountAsync(0);
            await Floor.Log(page, "0");
        }

        await Assertions.Expect(page.Locator("#passed-over")).ToHaveTextAsync("Passed over, not read yet: 2 points");
        Assert.Equal(passed, await Here(page));
        await Floor.Log(page, "0");
        await Assertions.Expect(page.Locator("#passed-over")).ToHaveTextAsync("Passed over, not read yet: this point");
        await Assertions.Expect(page.Locator("#all-done")).ToHaveCountAsync(0);

        // Stepping on from the last point leads there too.
        for (var steps = 0; steps < points - 3; steps++) await page.GetByLabel("Next point").ClickAsync();
        await Assertions.Expect(page.Locator("#passed-over")).ToHaveCountAsync(0);
        await page.GetByLabel("Next point").ClickAsync();
        await page.Locator("#passed-over").WaitForAsync();
        await Floor.Log(page, "0");
        await page.Locator("#all-done button").ClickAsync();
        await Assertions.Expect(page.Locator("#close")).ToBeEnabledAsync();
    }

    [Fact]
    public async Task End_VisitEndedAfterAHandOver_StillTellsWhoHasWhat()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, Floor.TwoWalkIns);
        await Floor.Begin(page);
        await Floor.To(page, "1A");
        await page.Locator("details.more > summary").ClickAsync();
        await page.Locator("#off-what").SelectOptionAsync("valve-shut");
        await page.Locator("#off").ClickAsync();
        await page.Locator("#tab-end").ClickAsync();
        await page.Locator(".hand-to").FillAsync("Ben Hale, night manager");
        await page.Locator(".hand-over").ClickAsync();
        await page.Locator("#close").ClickAsync();
        await page.Locator("#closed").WaitForAsync();
        await Assertions.Expect(page.Locator("#handed-over li")).ToHaveTextAsync(new Regex("^Valve shut on 1A: Ben Hale, night manager has had it since 20"));
        await Chromium.IsAccessible(page);
    }

    [Fact]
    public async Task Pad_SignAlone_SaysWhatIsMissing()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, Floor.TwoWalkIns);
        await Floor.Begin(page);
        await page.Locator("#key-60").ClickAsync();
        await Assertions.Expect(page.Locator("#save")).ToBeDisabledAsync();
        await Assertions.Expect(page.Locator("#saved")).ToHaveTextAsync("< needs a number above 0, such as <1");
        await page.Locator("#key-49").ClickAsync();
        await Assertions.Expect(page.Locator("#saved")).ToHaveTextAsync("");
        await Assertions.Expect(page.Locator("#save")).ToBeEnabledAsync();
    }

    /// <summary>To a case at the other end of the order one pressed Next forty times.</summary>
    [Fact]
    public async Task GoTo_ACase_LeadsToItsFirstOpenPointAndAsksAboutWhatIsTyped()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url, "1A,open-case,12,R-448A\n1B,open-case,12,R-448A\n" + Floor.TwoWalkIns[(Floor.TwoWalkIns.IndexOf('\n', StringComparison.Ordinal) + 1)..]);
        await Floor.Begin(page);
        await page.Locator("details.more > summary").ClickAsync();
        await page.Locator("#go-to").SelectOptionAsync(new SelectOptionValue { Label = "1B" });
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync("1B");
        var first = await Here(page);
        await Chromium.IsAccessible(page);
        await Floor.Log(page, "3");

        // Read there, it leads to the next one of that case; what is typed is asked about first.
        await page.Locator("#go-to").SelectOptionAsync(new SelectOptionValue { Label = "W2" });
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync("W2");
        await page.Locator("#key-49").ClickAsync();
        await page.Locator("#go-to").SelectOptionAsync(new SelectOptionValue { Label = "1B" });
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync("W2");
        await page.Locator("#drop").ClickAsync();
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync("1B");
        Assert.NotEqual(first, await Here(page));
    }

    [Fact]
    public async Task OtherDevice_WalksAndReads_IsSeenHereWithoutWaitingForARound()
    {
        await using var server = await ServerProcess.Start();
        await using var mine = await chromium.Phone();
        await using var others = await chromium.Phone();
        var (page, theirs) = (await mine.NewPageAsync(), await others.NewPageAsync());
        await Floor.MakeStore(theirs, server.Url, Floor.TwoWalkIns);
        await Floor.Begin(theirs);
        await Floor.To(theirs, "1A");
        await Floor.AllSent(theirs);
        await page.GotoAsync(server.Url);
        await Floor.AllSent(page);
        await page.GotoAsync(theirs.Url);
        await page.Locator("#current").WaitForAsync();

        // No round of this device fetches anything from here on.
        await page.RouteAsync("**/api/stores", route => route.FulfillAsync(new() { Status = 503 }));
        for (var steps = 0; !await theirs.Locator("#walk").IsVisibleAsync(); steps++)
        {
            Assert.InRange(steps, 0, 20);
            await theirs.GetByLabel("Next point").ClickAsync();
        }

        await theirs.Locator("#walk").ClickAsync();
        await theirs.Locator("#walk").ClickAsync();
        await Floor.Log(theirs, "7");
        await Floor.AllSent(theirs);
        var progress = await theirs.Locator("#progress").InnerTextAsync();
        await Assertions.Expect(page.Locator("#progress")).ToHaveTextAsync(progress);
        Assert.True(await page.Locator("circle.point.walked").CountAsync() > 0);
        await Assertions.Expect(page.Locator("circle.point.walked")).ToHaveCountAsync(await theirs.Locator("circle.point.walked").CountAsync());
    }

    private static async Task<string> Here(IPage page) => $"{await page.Locator("#current").InnerTextAsync()} {await page.Locator("#spot").InnerTextAsync()}";
}
