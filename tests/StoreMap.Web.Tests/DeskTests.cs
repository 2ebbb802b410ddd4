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
    public async Task Map_OfAStoreFromFiles_IsReadAndPanelsAreConfirmed()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "map");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await screens.Look("store");
        await page.GetByRole(AriaRole.Link, new() { Name = "Map", Exact = true }).First.ClickAsync();
        await page.Locator(".drawing").WaitForAsync();
        await page.Locator(".order li").First.WaitForAsync();
        await screens.Look("map");

        // In words as the sheets say it: no chance is a certainty, and one is not many.
        await Assertions.Expect(page.Locator("ul.zones li").First).ToContainTextAsync("more than 9 in 10 that it leaks");
        await Assertions.Expect(page.Locator("details summary", new() { HasText = "No leak seen" })).ToHaveTextAsync("No leak seen at 1 fixture, 0 not probed");
        await Assertions.Expect(page.Locator(".next-box p")).ToHaveTextAsync(new Regex(@"^[A-Z].*\.$"));

        // The analyst's colours, and every reading with what was taken off.
        await page.Locator("#expert summary").ClickAsync();
        var colours = await page.Locator(".steps-of-colour").InnerHTMLAsync();
        await page.Locator("#viridis").CheckAsync();
        await Assertions.Expect(page.Locator(".steps-of-colour")).Not.ToHaveJSPropertyAsync("innerHTML", colours);
        await page.Locator("#numbers").ClickAsync();
        var rows = page.Locator("#expert table").Nth(1).Locator("tbody tr");
        await rows.First.WaitForAsync();
        await screens.Look("numbers");
        var compared = 0;
        foreach (var row in await rows.AllAsync())
        {
            var cells = await row.Locator("td").AllInnerTextsAsync();
            double Number(int i) => double.Parse(cells[i], System.Globalization.CultureInfo.InvariantCulture);
            if (!double.TryParse(cells[3], System.Globalization.CultureInfo.InvariantCulture, out var shown)) continue;
            Assert.Equal(shown - Number(4), Number(5), 0.011);
            compared++;
        }

        Assert.True(compared > 5, $"only {compared} rows had a plain number");
        var csv = await File.ReadAllLinesAsync(await Desk.Download(page, "#numbers-csv"), TestContext.Current.CancellationToken);
        Assert.StartsWith("time,place,\"air, tip\",shown,", csv[0], StringComparison.Ordinal);
        Assert.Equal(1 + await rows.CountAsync(), csv.Length);

        // The place of a panel is asked about by a press; the cross moves by keys as well.
        await page.Locator(".order button.plain").First.ClickAsync();
        await Assertions.Expect(page.Locator("#place")).ToContainTextAsync("ppm above room");
        var asked = await page.Locator("#place").InnerTextAsync();
        await page.Locator(".drawing[data-keys]").FocusAsync();
        for (var i = 0; i < 8; i++) await page.Keyboard.PressAsync("Shift+ArrowDown");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#place")).Not.ToHaveTextAsync(asked);

        // An empty panel is less likely at once; where the leak was confirmed nothing is left to lift.
        var first = await page.Locator(".order li div").First.InnerTextAsync();
        await page.Locator(".empty-panel").First.ClickAsync();
        await Assertions.Expect(page.Locator(".looked li")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".order li div").First).Not.ToHaveTextAsync(first);
        var second = await page.Locator(".order li b").Nth(1).InnerTextAsync();

        // What was typed for one panel is not another's, and is gone once the form is left.
        await page.Locator(".leak-here").First.ClickAsync();
        await page.Locator("input.component").FillAsync("drain");
        await page.Locator(".leak-here").Nth(1).ClickAsync();
        await Assertions.Expect(page.Locator("input.component")).ToHaveValueAsync("");
        await page.Locator("input.component").FillAsync("fan");
        await page.Locator(".order .cancel").ClickAsync();
        await Assertions.Expect(page.Locator("input.component")).ToHaveCountAsync(0);
        await page.Locator(".leak-here").Nth(1).ClickAsync();
        await Assertions.Expect(page.Locator("input.component")).ToHaveValueAsync("");
        await page.Locator("input.component").FillAsync("expansion valve flare");
        await page.Locator(".confirm").ClickAsync();
        await Assertions.Expect(page.Locator(".looked li")).ToHaveCountAsync(2);
        await Assertions.Expect(page.Locator(".order li b").Filter(new() { HasText = second })).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator("#score")).ToBeVisibleAsync();

        // Picture, leak zones, the other colours, two panels looked at; then, in the first colours, picture and zones of what is known now.
        await Wait.Equal(5, () => Answers(page));
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#score")).ToBeVisibleAsync();
        await Wait.Equal(7, () => Answers(page));
        var order = await page.Locator(".order").InnerTextAsync();

        // Opened again, the same map comes from what the device keeps: no answer is worked out again.
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#score")).ToBeVisibleAsync();
        Assert.Equal(order, await page.Locator(".order").InnerTextAsync());
        Assert.Equal(7, await Answers(page));
        Assert.Empty(page.Workers);
        await screens.Look("confirmed");
        screens.IsQuiet();
    }

    [Fact]
    public async Task MonthsAndReport_OfAStoreFromFiles_EqualTheCommandLines()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "desk");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);

        // One visit: the heat map alone, letter for letter but for the last printed digit.
        await page.GetByRole(AriaRole.Link, new() { Name = "Report" }).ClickAsync();
        foreach (var part in new[] { "Manager", "Details", "Cards", "Record" }) await page.Locator($"#part-{part}").UncheckAsync();
        await page.Locator("#draw").ClickAsync();
        await page.Locator(".as-svg").First.WaitForAsync();
        var browser = await File.ReadAllTextAsync(await Desk.Download(page, ".as-svg"), TestContext.Current.CancellationToken);
        Assert.Equal(0, await Run("map", Desk.Sample("small.layout.json"), Desk.Sample("small.readings.csv"), "--out", Path.Combine(server.Folder, "command-line")));
        var native = await File.ReadAllTextAsync(Path.Combine(server.Folder, "command-line", "heat-map.svg"), TestContext.Current.CancellationToken);
        Assert.Equal(Shape(native), Shape(browser));
        var pairs = Numbers(native).Zip(Numbers(browser)).ToList();
        Assert.True(pairs.Count > 1000, $"only {pairs.Count} numbers were compared");
        Assert.All(pairs, p => Assert.InRange(p.Second, p.First - SheetTolerance, p.First + SheetTolerance));

        // A second month, side by side.
        await page.GetByRole(AriaRole.Link, new() { Name = "Store", Exact = true }).ClickAsync();
        await page.Locator("#visit-open").SetInputFilesAsync(Desk.Sample("small-june.readings.csv"));
        await page.GetByText("Read in:").WaitForAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Months" }).ClickAsync();
        await page.Locator("#compare").ClickAsync();
        await Assertions.Expect(page.Locator("table#zones")).ToContainTextAsync("Seen again");
        await Assertions.Expect(page.Locator(".months figure")).ToHaveCountAsync(2);

        // Each zone's chart is the sheet's, and says in words what it shows.
        await Assertions.Expect(page.Locator(".trend svg").First).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("[id^=trend-]")).ToHaveCountAsync(await page.Locator("#zones tbody tr").CountAsync());
        await Assertions.Expect(page.Locator("#fixture-trend-0 svg")).ToBeVisibleAsync();
        var cells = await page.Locator("#zones tbody tr").First.Locator("td").AllInnerTextsAsync();
        var days = await page.Locator("#zones thead th").AllInnerTextsAsync();
        await Assertions.Expect(page.Locator("#trend-0")).ToHaveAttributeAsync("aria-label", new Regex($"Highest reading above room: {days[2]} {cells[1]}, {days[3]} {cells[2]}\\."));
        await screens.Look("months");

        // On a phone the table is read by moving it sideways, and not in columns of a word each.
        await page.SetViewportSizeAsync(390, 844);
        Assert.InRange((await page.Locator("#zones tbody th").First.BoundingBoxAsync())!.Width, 110, 300);
        await screens.Look("trends", page.Locator("figure.trend").First);

        // The whole pack: sheets on screen, a picture, and the PDF from the server.
        await page.GetByRole(AriaRole.Link, new() { Name = "Report" }).ClickAsync();
        await page.Locator("#draw").ClickAsync();
        await page.Locator("#pdf").WaitForAsync();
        Assert.True(await page.Locator("figure.sheet").CountAsync() >= 5);
        await screens.Look("report");
        var png = await File.ReadAllBytesAsync(await Desk.Download(page, ".as-png"), TestContext.Current.CancellationToken);
        Assert.Equal([0x89, 0x50, 0x4E, 0x47], png[..4]);
        await Floor.AllSent(page);

        // The paper that is usual is said; and the server's PDF tells how far it is, and can be stopped.
        await Assertions.Expect(page.Locator("#papers")).ToHaveTextAsync("Plans are on A3, pages of text on A4: the usual where a store is measured in metres.");
        await page.Locator("#paper").SelectOptionAsync("tabloid");
        await Assertions.Expect(page.Locator("#papers")).ToHaveTextAsync("Plans are on tabloid, pages of text on letter.");
        await page.Locator("#paper").SelectOptionAsync("");
        var held = new TaskCompletionSource();
        await page.RouteAsync("**/report", async route =>
        {
            if (route.Request.Method == "POST") await held.Task;
            await route.ContinueAsync();
        });
        await page.Locator("#pdf").ClickAsync();
        await Assertions.Expect(page.Locator("#pdf-work progress")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("#pdf")).ToBeDisabledAsync();
        await screens.Look("pdf");
        await page.Locator("#pdf-work button").ClickAsync();
        await Assertions.Expect(page.Locator(".work")).ToHaveTextAsync("Stopped. No PDF was made.");
        await page.UnrouteAllAsync(new() { Behavior = UnrouteBehavior.IgnoreErrors });
        held.SetResult();

        // A progress that can't be read, as a proxy's own page, ends nothing.
        var asked = new TaskCompletionSource();
        await page.RouteAsync("**/report", async route =>
        {
            if (route.Request.Method == "POST") await asked.Task;
            await route.ContinueAsync();
        });
        await page.RouteAsync("**/report/*", async route =>
        {
            await route.FulfillAsync(new() { ContentType = "text/html", Body = "<p>One moment.</p>" });
            asked.TrySetResult();
        });
        var pdf = await File.ReadAllBytesAsync(await Desk.Download(page, "#pdf"), TestContext.Current.CancellationToken);
        Assert.Equal("%PDF-"u8.ToArray(), pdf[..5]);
        screens.IsQuiet();
    }

    [Fact]
    public async Task Plan_DrawnFromACaseList_IsSavedAndItsWalkReordered()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "plan");
        var page = screens.Page;
        await page.GotoAsync(server.Url);
        await page.GetByRole(AriaRole.Heading, new() { Name = "Stores" }).WaitForAsync();
        await screens.Look("start");
        await Floor.MakeStore(page);
        await Floor.AllSent(page);
        await page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await page.Locator("#board").WaitForAsync();

        // A case from the list is chosen by a press, dragged by the pointer and moved by keys; both are undone.
        var first = page.Locator($"g[data-id='{await page.Locator("g.thing.fixtures").First.GetAttributeAsync("data-id")}'] polygon").First;
        var before = (await first.GetAttributeAsync("points"))!;
        var box = (await first.BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(box.X + (box.Width / 2), box.Y + (box.Height / 2));
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(box.X + (box.Width / 2) + 6, box.Y + (box.Height / 2) - 30, new() { Steps = 4 });
        await page.Mouse.UpAsync();
        await Assertions.Expect(page.Locator("#chosen h2")).ToBeVisibleAsync();
        await Assertions.Expect(first).Not.ToHaveAttributeAsync("points", before);
        await page.Locator("#undo").ClickAsync();
        await Assertions.Expect(first).ToHaveAttributeAsync("points", before);
        await page.Locator(".board").FocusAsync();
        await page.Keyboard.PressAsync("ArrowUp");
        await Assertions.Expect(first).Not.ToHaveAttributeAsync("points", before);
        await page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(first).ToHaveAttributeAsync("points", before);

        // A case set upon another is told with its place, and can't be saved until it is put right.
        await page.Locator("#repeat").ClickAsync();
        await page.Locator("#place-x").FillAsync("0");
        await page.Locator("#place-y").FillAsync("-9");
        await page.Locator("#place-it").ClickAsync();
        await Assertions.Expect(page.Locator(".problems")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("#save")).ToBeDisabledAsync();
        await screens.Look("wrong");
        await page.Locator("#undo").ClickAsync();
        await page.Locator("#undo").ClickAsync();

        // Shelving by numbers, in feet and inches.
        await page.Locator("#add-what").SelectOptionAsync("obstacles/shelving");
        await page.Locator("#add-x").FillAsync("2' 6\"");
        await page.Locator("#add-y").FillAsync("2");
        await page.Locator("#add-width").FillAsync("4 ft");
        await page.Locator("#add-height").FillAsync("3");
        await page.Locator("#add").ClickAsync();
        await Assertions.Expect(page.Locator("g.thing.obstacles")).ToHaveCountAsync(1);
        await screens.Look("plan");
        await page.Locator("#save").ClickAsync();
        await Assertions.Expect(page.Locator("#plan-state")).ToContainTextAsync("Saved");
        await Floor.AllSent(page);
        Assert.Contains("shelving", await server.Get("/api/stores/alder-corner-foods/layout"), StringComparison.Ordinal);

        // The walk over the saved plan; a stop is moved, and the floor's order follows.
        await page.GetByRole(AriaRole.Link, new() { Name = "Walk", Exact = true }).ClickAsync();
        await page.Locator(".stops li").First.WaitForAsync();
        var second = await page.Locator(".stops li .what").Nth(1).InnerTextAsync();
        await page.Locator(".stops .later").Nth(1).ClickAsync();
        await Assertions.Expect(page.Locator(".stops li .what").Nth(2)).ToHaveTextAsync(second);
        screens.IsQuiet();
    }

    private static Task<int> Answers(IPage page) => page.EvaluateAsync<int>("() => caches.open('storemap-answers').then(c => c.keys()).then(k => k.filter(q => q.url.includes('/answers/')).length)");

    private static string Shape(string svg) => Number().Replace(svg, "#");

    private static IEnumerable<double> Numbers(string svg) => Number().Matches(svg).Select(m => double.Parse(m.Value, CultureInfo.InvariantCulture));

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex Number();

    internal static async Task<int> Run(params string[] args)
    {
        using var process = Process.Start(new ProcessStartInfo("dotnet", [ServerProcess.Program, .. args]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        await Task.WhenAll(process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        await process.WaitForExitAsync();
        return process.ExitCode;
    }
}
