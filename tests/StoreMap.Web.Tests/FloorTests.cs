using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
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
    [InlineData("phone")]
    [InlineData("tablet")]
    [InlineData("desktop")]
    public async Task Survey_FromCaseListToAnswer_WorksAndIsAccessible(string size)
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "survey", size);
        var page = screens.Page;
        await page.GotoAsync(server.Url);
        await page.Locator("#demo").WaitForAsync();
        await screens.Look("stores");
        await Floor.MakeStore(page, () => screens.Look("new"));
        await screens.Look("begin");
        var survey = await Floor.Begin(page);
        await screens.Look("zero");

        // Zero in clean air comes before anything else.
        await Assertions.Expect(page.Locator("#current")).ToContainTextAsync("Zero");
        foreach (var reading in new[] { "0", "0", "1", "4", "12" }) await Floor.Log(page, reading);
        await screens.Look("log");
        await Floor.PressAll(page.Locator("main details:not([open]) > summary"));
        await screens.Look("more", page.Locator("main details").Last);
        await page.GetByRole(AriaRole.Button, new() { Name = "Off", Exact = true }).ClickAsync();
        await screens.Look("fans", page.Locator("#confirm-off"));
        await page.Locator("#confirm-off").ClickAsync();
        await page.Locator("#tab-answer").ClickAsync();
        await Assertions.Expect(page.Locator("#answer-state")).ToContainTextAsync("worked out");
        await screens.Look("answer");
        await page.Locator("#tab-end").ClickAsync();
        await screens.Look("end");
        await Floor.AllSent(page);
        Assert.Equal(5, await Floor.OnServer(server, survey));
        screens.IsQuiet();
    }

    [Fact]
    public async Task Answer_LogItThere_AddsThePointAndTakesItsReading()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        var survey = await Floor.Begin(page);
        foreach (var reading in new[] { "0", "0", "1", "4", "12" }) await Floor.Log(page, reading);
        var at = await page.Locator("#current").InnerTextAsync();
        var points = (await page.Locator("#progress").InnerTextAsync()).Split(' ')[^1];
        await page.Locator("#tab-answer").ClickAsync();
        await Assertions.Expect(page.Locator("#answer-state")).ToContainTextAsync("From 5 readings, worked out");
        await page.Locator("#go-next").ClickAsync();
        await Assertions.Expect(page.Locator("#progress")).ToHaveTextAsync($"5 of {int.Parse(points, CultureInfo.InvariantCulture) + 1}");

        // Taken back, the point is gone again, and one stands where one stood.
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(page.Locator("#progress")).ToHaveTextAsync($"5 of {points}");
        await Assertions.Expect(page.Locator("#current")).ToHaveTextAsync(at);

        // The place is told in the same words where it is proposed and where it is read.
        await page.Locator("#tab-answer").ClickAsync();
        await Assertions.Expect(page.Locator("#next")).ToHaveTextAsync(new Regex(@"^Read at the (return|kick plate) of 1A, \d+ ft( 6 in)? from the left end\. No other"));
        var told = Regex.Match(await page.Locator("#next").InnerTextAsync(), @"the (?<spot>[a-z ]+) of 1A, (?<far>.+ from the left) end").Groups;
        await page.Locator("#go-next").ClickAsync();
        await Assertions.Expect(page.Locator("#spot")).ToContainTextAsync($"{told["far"].Value} · {told["spot"].Value}");
        await Floor.Log(page, "9");
        await Floor.AllSent(page);
        using var sent = JsonDocument.Parse(await server.Get($"/api/surveys/{survey}/survey.json"));
        var last = sent.RootElement.GetProperty("readings").EnumerateArray().Last();
        Assert.Equal("9", last.GetProperty("ppm").ToString());
        Assert.EndsWith("-" + last.GetProperty("spot").GetString(), last.GetProperty("point").GetString(), StringComparison.Ordinal);

        // Opened again, one goes on from there, whatever was passed over before.
        for (var i = 0; i < 3; i++) await page.GetByRole(AriaRole.Button, new() { Name = "Next point" }).ClickAsync();
        await Floor.Log(page, "1");
        var next = $"{await page.Locator("#current").InnerTextAsync()} {await page.Locator("#spot").InnerTextAsync()}";
        await page.ReloadAsync();
        await page.Locator("#current").WaitForAsync();
        Assert.Equal(next, $"{await page.Locator("#current").InnerTextAsync()} {await page.Locator("#spot").InnerTextAsync()}");
    }

    [Fact]
    public async Task Answer_PanelLiftedWithNothingBehindIt_IsEvidenceAtOnceAndCanBeTakenBack()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "lifted");
        var page = screens.Page;
        await Floor.MakeStore(page, server.Url);
        var survey = await Floor.Begin(page);
        foreach (var reading in new[] { "0", "0", "1", "4", "12", "3", "1" }) await Floor.Log(page, reading);
        await page.Locator("#tab-answer").ClickAsync();
        await Assertions.Expect(page.Locator("#answer-state")).ToContainTextAsync("From 7 readings, worked out");
        var first = page.Locator(".order li").First;
        var before = await first.Locator("div").First.InnerTextAsync();
        await screens.Look("order", first);
        await first.Locator(".empty-panel").ClickAsync();
        await Assertions.Expect(page.Locator(".looked li")).ToContainTextAsync("nothing found");
        await Assertions.Expect(first).Not.ToContainTextAsync(before);
        await Floor.AllSent(page);
        Assert.Contains(await Floor.Events(server, survey), e => e.GetProperty("kind").GetString() == "panel" && !e.GetProperty("body").GetProperty("leak").GetBoolean());

        await page.Locator(".looked button").ClickAsync();
        await Assertions.Expect(first).ToContainTextAsync(before);
        await Assertions.Expect(page.Locator(".looked")).ToHaveCountAsync(0);

        await first.Locator(".leak-here").ClickAsync();
        await first.Locator(".component").FillAsync("valve flare");
        await screens.Look("here", first);
        await first.Locator(".confirm").ClickAsync();
        await Assertions.Expect(page.Locator(".looked li")).ToContainTextAsync("leak at valve flare");
        screens.IsQuiet();
    }

    [Fact]
    public async Task Fans_AskedForAtACase_AreNotStoppedAtTheNext()
    {
        await using var server = await ServerProcess.Start();
        await using var device = await chromium.Phone();
        var page = await device.NewPageAsync();
        await Floor.MakeStore(page, server.Url);
        await Floor.Begin(page);
        await Floor.To(page, "1B");
        await page.GetByRole(AriaRole.Button, new() { Name = "Off", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("#fans-at")).ToHaveTextAsync("Before the fans stop at 1B");
        for (var steps = 0; (await page.Locator("#current").InnerTextAsync()).StartsWith("1B", StringComparison.Ordinal); steps++)
        {
            Assert.InRange(steps, 0, 12);
            await page.GetByRole(AriaRole.Button, new() { Name = "Next point" }).ClickAsync();
        }

        await Assertions.Expect(page.Locator("#confirm-off")).ToHaveCountAsync(0);
        Assert.Equal(0, await page.EvaluateAsync<int>("scrollY"));
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

        // By the clocks of the store, wherever this device is.
        await Assertions.Expect(page.Locator("a.card[href^='/survey/']").First).ToContainTextAsync("2026-08-04 05:20");
        await page.Locator("a.card[href^='/survey/']").First.ClickAsync();
        await page.Locator("#tab-answer").ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("1B");
        await Chromium.IsAccessible(page);

        // What was worked out from a log is shown no finer than a monitor shows it.
        await page.Locator("#tab-paper").ClickAsync();
        await page.Locator("#go-on").ClickAsync();
        await page.Locator("#paper-2").WaitForAsync();
        Assert.All(await page.Locator(".from-paper input[inputmode=decimal]").EvaluateAllAsync<string[]>("all => all.map(i => i.value)"), value => Assert.InRange(value.Length, 0, 6));
    }
}
