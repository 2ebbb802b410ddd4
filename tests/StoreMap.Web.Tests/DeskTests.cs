using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The desk in a real browser on the real server: each moment walked end to end and looked at in three sizes.</summary>
[Collection(BrowserTests.Name)]
public sealed partial class DeskTests(Chromium chromium)
{
    /// <summary>The printed digit of a sheet, and half the last digit that rounding may turn.</summary>
    private const double SheetTolerance = 0.0101;

    [Fact]
    public async Task Map_DemoStore_IsReadAndPanelsAreConfirmed()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "map");
        var page = screens.Page;
        await Desk.OpenDemo(page, server.Url);
        await screens.Look("store");
        await page.GetByRole(AriaRole.Link, new() { Name = "Map", Exact = true }).First.ClickAsync();
        await page.Locator(".drawing").WaitForAsync();
        await page.Locator(".order li").First.WaitForAsync();
        await screens.Look("map");

        // The place of a panel is asked about by a press; the cross moves by keys as well.
        await page.Locator(".order button.plain").First.ClickAsync();
        await Assertions.Expect(page.Locator("#place")).ToContainTextAsync("ppm above room", new() { Timeout = 60_000 });
        var asked = await page.Locator("#place").InnerTextAsync();
        await page.Locator(".drawing[data-keys]").FocusAsync();
        for (var i = 0; i < 8; i++) await page.Keyboard.PressAsync("Shift+ArrowDown");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#place")).Not.ToHaveTextAsync(asked, new() { Timeout = 60_000 });

        // An empty panel drops in the order at once; a confirmed leak comes first.
        var first = await page.Locator(".order li b").First.InnerTextAsync();
        await page.Locator(".empty-panel").First.ClickAsync();
        await Assertions.Expect(page.Locator(".looked li")).ToHaveCountAsync(1, new() { Timeout = 120_000 });
        await Assertions.Expect(page.Locator(".order li b").First).Not.ToHaveTextAsync(first);
        var second = await page.Locator(".order li b").Nth(1).InnerTextAsync();
        await page.Locator(".leak-here").Nth(1).ClickAsync();
        await page.Locator("input.component").FillAsync("expansion valve flare");
        await page.Locator(".confirm").ClickAsync();
        await Assertions.Expect(page.Locator(".looked li")).ToHaveCountAsync(2, new() { Timeout = 120_000 });
        await Assertions.Expect(page.Locator(".order li b").First).ToHaveTextAsync(second);
        await Assertions.Expect(page.Locator("#score")).ToBeVisibleAsync();
        await screens.Look("confirmed");
        screens.IsQuiet();
    }

    [Fact]
    public async Task HeatMap_InTheBrowser_EqualsTheCommandLines()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "report");
        var page = screens.Page;
        await page.GotoAsync(server.Url);
        await page.Locator("#layout-open").SetInputFilesAsync(Desk.Sample("small.layout.json"));
        await page.Locator("#begin").WaitForAsync();
        await page.Locator("#visit-open").SetInputFilesAsync(Desk.Sample("small.readings.csv"));
        await page.GetByText("Read in:").WaitForAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Report" }).ClickAsync();
        foreach (var part in new[] { "Manager", "Details", "Cards", "Record" }) await page.Locator($"#part-{part}").UncheckAsync();
        await page.Locator("#draw").ClickAsync();
        await page.Locator("figure.sheet").First.WaitForAsync();
        var wait = page.WaitForDownloadAsync();
        await page.Locator(".as-svg").First.ClickAsync();
        var browser = await File.ReadAllTextAsync(await (await wait).PathAsync());
        var folder = Path.Combine(server.Folder, "command-line");
        var code = await Run("map", Desk.Sample("small.layout.json"), Desk.Sample("small.readings.csv"), "--out", folder);
        Assert.Equal(0, code);
        var native = await File.ReadAllTextAsync(Path.Combine(folder, "heat-map.svg"));
        Assert.Equal(Shape(native), Shape(browser));
        var pairs = Numbers(native).Zip(Numbers(browser)).ToList();
        Assert.True(pairs.Count > 1000, $"only {pairs.Count} numbers were compared");
        Assert.All(pairs, p => Assert.InRange(p.Second, p.First - SheetTolerance, p.First + SheetTolerance));
        screens.IsQuiet();
    }

    private static string Shape(string svg) => Number().Replace(svg, "#");

    private static IEnumerable<double> Numbers(string svg) => Number().Matches(svg).Select(m => double.Parse(m.Value, CultureInfo.InvariantCulture));

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex Number();

    private static async Task<int> Run(params string[] args)
    {
        using var process = Process.Start(new ProcessStartInfo("dotnet", [ServerProcess.Program, .. args]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        await Task.WhenAll(process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        await process.WaitForExitAsync();
        return process.ExitCode;
    }
}
