using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>Feet and inches or metres, as chosen on the device: on every screen of the desk, while file and sheets keep the plan's metres.</summary>
[Collection(BrowserTests.Name)]
public sealed partial class LengthsTests(Chromium chromium)
{
    [Fact]
    public async Task Feet_ChosenOnTheDevice_AreOnScreensAloneOfAMetricStore()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "lengths");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await Floor.AllSent(page);
        var store = page.Url;
        await Floor.Turn(page, store + "/map");
        await Assertions.Expect(page.Locator(".order li div").First).ToHaveTextAsync(Metres());
        await Choose(page, server.Url, "ft");
        await screens.Look("device");

        // The map: panels, zones and why, a place pressed, and what the finding says of its place.
        await Floor.Turn(page, store + "/map");
        foreach (var part in new[] { ".order li div", ".zones li" })
        {
            await Assertions.Expect(page.Locator(part).First).ToHaveTextAsync(Feet());
            await Assertions.Expect(page.Locator(part).First).Not.ToHaveTextAsync(Metres());
        }

        await page.Locator(".order button.plain").First.ClickAsync();
        await Assertions.Expect(page.Locator("#place")).ToHaveTextAsync(Feet());
        await Assertions.Expect(page.Locator("#place")).Not.ToHaveTextAsync(Metres());
        await page.Locator(".leak-here").First.ClickAsync();
        await page.Locator(".confirm").ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Findings: photo, repair and tests" }).ClickAsync();
        await Assertions.Expect(page.Locator(".finding h3 small")).ToHaveTextAsync(Feet());

        // The rules and weights go by the plan.
        await page.Locator("[data-step=Repair]").ClickAsync();
        await Assertions.Expect(page.Locator(".finding .entry")).ToContainTextAsync("added, kg");

        // The report is offered in them, on screen and bound by the server, and the plan's own are one choice away.
        await Floor.AllSent(page);
        await Floor.Turn(page, store + "/report");
        await Assertions.Expect(page.Locator("#units")).ToHaveValueAsync("ft");
        foreach (var part in new[] { "HeatMap", "Details", "Comparison", "Record" }) await page.Locator($"#part-{part}").UncheckAsync();
        await page.Locator("#draw").ClickAsync();
        var sheets = page.Locator("figure.sheet .paper");
        await Assertions.Expect(sheets.First).ToHaveTextAsync(Feet());
        await Assertions.Expect(sheets.First).Not.ToHaveTextAsync(Metres());
        using (var pdf = UglyToad.PdfPig.PdfDocument.Open(await Desk.Download(page, "#pdf")))
        {
            var words = string.Concat(pdf.GetPages().Select(p => p.Text));
            Assert.Matches(Feet(), words);
            Assert.DoesNotMatch(Metres(), words);
        }

        await page.Locator("#units").SelectOptionAsync("");
        await page.Locator("#draw").ClickAsync();
        await Assertions.Expect(sheets.First).ToHaveTextAsync(Metres());
        await Assertions.Expect(sheets.First).Not.ToHaveTextAsync(Feet());

        // The walk on the screen, and its sheet.
        await Floor.Turn(page, store + "/route");
        await Assertions.Expect(page.Locator(".work")).ToHaveTextAsync(Feet());
        await page.Locator("#walk-sheets:enabled").ClickAsync();
        await Assertions.Expect(page.Locator("figure.sheet .paper").First).ToHaveTextAsync(Metres());
        await Assertions.Expect(page.Locator("figure.sheet .paper").First).Not.ToHaveTextAsync(Feet());

        // Back to the plan's own.
        await Choose(page, server.Url, "plan");
        await Floor.Turn(page, store + "/map");
        await Assertions.Expect(page.Locator(".order li div").First).ToHaveTextAsync(Metres());
        screens.IsQuiet();
    }

    [Fact]
    public async Task PlanPage_InFeet_TakesAndShowsThemAndTheFileStaysMetric()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "lengths");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await Floor.AllSent(page);
        var store = page.Url;
        await Choose(page, server.Url, "ft");
        await Floor.Turn(page, store + "/plan");
        await page.Locator("#board").WaitForAsync();
        await Assertions.Expect(page.Locator("#grid")).ToHaveValueAsync("0' 6\"");
        await page.GetByText(new Regex("^Choose among all \\d+ things")).ClickAsync();
        await page.Locator(".things button", new() { HasText = "1A" }).ClickAsync();
        var before = await Left(page, "C1");

        // Left as it was shown, nothing moves by a rounding.
        await page.Locator("#place-it").ClickAsync();
        Assert.Equal(before, await Left(page, "C1"));
        await Assertions.Expect(page.Locator("#place-x")).ToHaveValueAsync(Feet());

        // A column by numbers and cases from a list, typed in feet and in the file as metres.
        await page.Locator("#add-what").SelectOptionAsync("obstacles/column");
        await page.Locator("#add-x").FillAsync("12' 6\"");
        await page.Locator("#add-y").FillAsync("10");
        await page.Locator("#add-width").FillAsync("1");
        await page.Locator("#add-height").FillAsync("0.5 m");
        await page.Locator("#add").ClickAsync();
        await Assertions.Expect(page.Locator("#place-x")).ToHaveValueAsync("12' 6\"");
        await page.Locator("#add-list summary").ClickAsync();
        await page.Locator("#listed").FillAsync("tag,kind,lengths\n8A,open-case,12-8\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add these cases" }).ClickAsync();
        await page.Locator("#place-x").FillAsync("26'");
        await page.Locator("#place-y").FillAsync("20");
        await page.Locator("#place-it").ClickAsync();
        await screens.Look("plan");
        using var layout = JsonDocument.Parse(await File.ReadAllTextAsync(await Saved(page, store), TestContext.Current.CancellationToken));
        Assert.Equal("m", layout.RootElement.GetProperty("units").GetString());
        var column = layout.RootElement.GetProperty("obstacles").EnumerateArray().Last().GetProperty("outline");
        Assert.Equal([3.81, 3.048, 4.1148, 3.548], [Number(column[0][0]), Number(column[0][1]), Number(column[2][0]), Number(column[2][1])]);
        var listed = layout.RootElement.GetProperty("fixtures").EnumerateArray().Single(f => f.GetProperty("tag").GetString() == "8A");
        Assert.Equal([3.6576, 2.4384], listed.GetProperty("sections").EnumerateArray().Select(Number));
        Assert.Equal(7.9248, Number(listed.GetProperty("outline")[0][0]));
        screens.IsQuiet();
    }

    private static double Number(JsonElement e) => e.GetDouble();

    private static async Task<string> Saved(IPage page, string store)
    {
        await page.Locator("#save").ClickAsync();
        await Assertions.Expect(page.Locator("#plan-state")).ToContainTextAsync("Saved");
        await Floor.AllSent(page);
        await Floor.Turn(page, store);
        return await Desk.Download(page, "button:has-text('Layout file')");
    }

    private static Task<string?> Left(IPage page, string id) => page.Locator($"#board [data-id='{id}'] polygon").GetAttributeAsync("points");

    private static async Task Choose(IPage page, string url, string unit)
    {
        await Floor.Turn(page, $"{url}/device");
        await page.Locator($"#lengths-{unit}").CheckAsync();
        await Floor.IsKept(page, "meta", "device", $"d => d.lengths === '{(unit == "plan" ? "" : unit)}'");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator($"#lengths-{unit}")).ToBeCheckedAsync();
    }

    [GeneratedRegex(@"\d ?(ft\b|')")]
    private static partial Regex Feet();

    [GeneratedRegex(@"\d m\b")]
    private static partial Regex Metres();
}
