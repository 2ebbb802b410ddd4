using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The floor client in a real browser on the real server: from a case list to readings, at three sizes; offline; killed.</summary>
[Collection(BrowserTests.Name)]
public sealed class FloorTests(Chromium chromium)
{
    [Theory]
    [InlineData(390, 844)]
    [InlineData(820, 1180)]
    [InlineData(1280, 800)]
    public async Task Survey_FromCaseListToAnswer_WorksAndIsAccessible(int width, int height)
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device(width, height);
        var page = await device.NewPageAsync();
        List<string> errors = [];
        page.Console += (_, message) =>
        {
            if (message.Type == "error") errors.Add(message.Text);
        };
        page.PageError += (_, error) => errors.Add(error);

        await page.GotoAsync(server.Url);
        await page.GetByRole(AriaRole.Heading, new() { Name = "Stores" }).WaitForAsync();
        await Chromium.IsAccessible(page);
        await Floor.MakeStore(page, server.Url);
        await Chromium.IsAccessible(page);
        var survey = await Floor.Begin(page);
        await Chromium.IsAccessible(page);

        // Zero in clean air comes before anything else.
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync("Zero");
        foreach (var reading in new[] { "0", "0", "1", "4", "12" }) await Floor.Log(page, reading);
        await page.Locator("#tab-answer").ClickAsync();
        await page.GetByRole(AriaRole.Heading).First.WaitForAsync();
        await Chromium.IsAccessible(page);
        await page.Locator("#tab-end").ClickAsync();
        await Chromium.IsAccessible(page);
        await Floor.AllSent(page);
        Assert.Equal(5, await Floor.OnServer(server, survey));
        Assert.Empty(errors);
    }

    [Fact]
    public async Task Offline_TabKilledAtAnyMoment_LosesNothingShownAsKept()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        var survey = await Floor.Begin(page);
        await Floor.AllSent(page);
        await Floor.ReadyForOffline(page);
        await device.SetOfflineAsync(true);
        var shown = 0;
        var random = new Random(7);
        for (var i = 0; i < 8; i++)
        {
            for (var k = 0; k < 3; k++) await Floor.Log(page, random.Next(0, 30).ToString(System.Globalization.CultureInfo.InvariantCulture));
            shown += 3;

            // A key half pressed, then the tab is gone.
            await page.Locator("#key-55").ClickAsync();
            await page.CloseAsync(new() { RunBeforeUnload = false });
            page = await device.NewPageAsync();
            await page.GotoAsync($"{server.Url}/survey/{survey}");
            await page.Locator("#progress").WaitForAsync();
            Assert.Equal(shown, await Floor.Done(page));
        }

        await Assertions.Expect(page.Locator("a.stand")).ToContainTextAsync("to send");
        await device.SetOfflineAsync(false);
        await Floor.AllSent(page);
        Assert.Equal(shown, await Floor.OnServer(server, survey));
    }

    [Fact]
    public async Task ServerKilledWhileSending_KeepsEveryReadingOnce()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        var survey = await Floor.Begin(page);
        for (var i = 0; i < 5; i++)
        {
            await Floor.Log(page, "2");
            await server.Kill();
            await Floor.Log(page, "3");
            await server.Up();
        }

        await page.ReloadAsync();
        await Floor.AllSent(page);
        Assert.Equal(10, await Floor.OnServer(server, survey));
    }

    [Fact]
    public async Task TwoDevices_OnOneSurvey_EndWithBothsReadings()
    {
        await using var server = await ServerProcess.Start();
        await using var first = await chromium.Device();
        await using var second = await chromium.Device();
        var one = await first.NewPageAsync();
        await Floor.MakeStore(one, server.Url);
        var survey = await Floor.Begin(one);
        await Floor.Log(one, "5");
        await Floor.AllSent(one);
        var two = await second.NewPageAsync();
        await two.GotoAsync(server.Url);
        await two.GetByRole(AriaRole.Link, new() { Name = "Alder Corner Foods" }).ClickAsync();
        await two.Locator($"a[href='/survey/{survey}']").ClickAsync();
        await two.Locator("#progress").WaitForAsync();
        Assert.Equal(1, await Floor.Done(two));
        await second.SetOfflineAsync(true);
        await Floor.Log(one, "6");
        await two.GetByRole(AriaRole.Button, new() { Name = "Next point" }).ClickAsync();
        await Floor.Log(two, "7");
        await second.SetOfflineAsync(false);
        await Floor.AllSent(one);
        await Floor.AllSent(two);
        Assert.Equal(3, await Floor.OnServer(server, survey));
    }

    [Fact]
    public async Task DemoStore_OpensAndShowsItsVisit()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.GotoAsync(server.Url);
        await page.Locator("#demo").ClickAsync();
        await page.Locator("a.card[href^='/survey/']").First.ClickAsync(new() { Timeout = 180_000 });
        await page.Locator("#tab-answer").ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("1B", new() { Timeout = 180_000 });
        await Chromium.IsAccessible(page);
    }
}
