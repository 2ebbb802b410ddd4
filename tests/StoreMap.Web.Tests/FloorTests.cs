using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The floor client in a real browser on the real server: from a case list to readings, at three sizes; the server killed; the demo.</summary>
[Collection(BrowserTests.Name)]
public sealed class FloorTests(Chromium chromium)
{
    // Pairs of tags on the plan whose texts cover each other.
    private const string TagsThatOverlap = """
        () => {
          const tags = [...document.querySelectorAll('text.tag')].map(e => ({ words: e.textContent, box: e.getBoundingClientRect() }));
          return tags.flatMap((a, i) => tags.slice(i + 1)
            .filter(b => Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left) > 1 && Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top) > 1)
            .map(b => `${a.words} ${b.words}`));
        }
        """;

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
        await Floor.MakeStore(page);
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
    public async Task ServerKilledWhileSending_KeepsEveryReadingOnce()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        var survey = await Floor.Begin(page);
        for (var i = 0; i < 3; i++)
        {
            await Floor.Log(page, "2");
            await server.Kill();
            await Floor.Log(page, "3");
            await server.Up();
        }

        await page.ReloadAsync();
        await Floor.AllSent(page);
        Assert.Equal(6, await Floor.OnServer(server, survey));
    }

    [Fact]
    public async Task DemoStore_OpensAndShowsItsVisit()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Device();
        var page = await device.NewPageAsync();
        await page.GotoAsync(server.Url);
        await page.Locator("#demo").ClickAsync();
        await page.Locator("a.card[href^='/survey/']").First.WaitForAsync();
        Assert.Empty(await page.EvaluateAsync<string[]>(TagsThatOverlap));
        await page.Locator("a.card[href^='/survey/']").First.ClickAsync();
        await page.Locator("#tab-answer").ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("1B");
        await Chromium.IsAccessible(page);

        // What was worked out from a log is shown no finer than a monitor shows it.
        await page.Locator("#tab-paper").ClickAsync();
        await page.Locator("#paper-2").WaitForAsync();
        Assert.All(await page.Locator(".from-paper input[inputmode=decimal]").EvaluateAllAsync<string[]>("all => all.map(i => i.value)"), value => Assert.InRange(value.Length, 0, 6));
    }
}
