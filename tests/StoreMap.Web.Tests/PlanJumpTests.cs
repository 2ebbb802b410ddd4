using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>From what is told of a plan to the thing on it.</summary>
[Collection(BrowserTests.Name)]
public sealed class PlanJumpTests(Chromium chromium)
{
    /// <summary>An error called a case by its id, and pressing it left a plan drawn nearer where it was.</summary>
    [Fact]
    public async Task Error_Pressed_CallsTheCaseByItsTagAndBringsItIntoSight()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "jump");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await page.Locator("#board").WaitForAsync();
        await page.SetViewportSizeAsync(1280, 800);

        // Case 2 (C3) is put over 1A (C1).
        await page.Locator("details > .things").EvaluateAsync("things => things.parentElement.open = true");
        await page.Locator(".things button").Filter(new() { HasText = "2" }).First.ClickAsync();
        await page.Locator("#chosen h2").Filter(new() { HasText = "2" }).WaitForAsync();
        var box = await page.Locator("#board [data-id=C1] polygon").EvaluateAsync<double[]>("p => { const b = p.getBBox(); return [b.x, -b.y - b.height]; }");
        await page.Locator("#place-x").FillAsync(FormattableString.Invariant($"{box[0] + 0.6:0.###}"));
        await page.Locator("#place-y").FillAsync(FormattableString.Invariant($"{box[1]:0.###}"));
        await page.Locator("#place-it").ClickAsync();
        var error = page.Locator(".problems .jumps li").Filter(new() { HasText = "overlaps" }).First;
        await Assertions.Expect(error).ToContainTextAsync("overlaps 1A by more than");
        await Assertions.Expect(error.Locator("button")).ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^2"));

        foreach (var _ in new[] { 2, 3, 4 }) await page.Locator("#nearer").ClickAsync();
        await page.Locator(".board[data-zoom='4']").WaitForAsync();
        foreach (var corner in new[] { "r => r.scrollTo(0, 0)", "r => r.scrollTo(r.scrollWidth, r.scrollHeight)" })
        {
            await page.Locator(".scroll").EvaluateAsync(corner);
            await error.Locator("button").ClickAsync();
            Assert.True(await Wait.Until(() => IsSeen(page, "C3"), seen => seen), $"C3 is out of sight after {corner}");
        }

        // So does the list of all things.
        await page.Locator(".scroll").EvaluateAsync("r => r.scrollTo(r.scrollWidth, r.scrollHeight)");
        Assert.False(await IsSeen(page, "E1"));
        await page.Locator(".things button").Filter(new() { HasText = "E1" }).ClickAsync();
        Assert.True(await Wait.Until(() => IsSeen(page, "E1"), seen => seen), "E1 is out of sight");
        screens.IsQuiet();
    }

    [Fact]
    public async Task Panel_ShownOnAMapDrawnNearer_ComesIntoSight()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "jump-map");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await page.SetViewportSizeAsync(1280, 800);
        await page.GetByRole(AriaRole.Link, new() { Name = "Map", Exact = true }).First.ClickAsync();
        await page.Locator(".order button.plain").First.WaitForAsync();
        foreach (var zoom in new[] { 2, 3, 4 })
        {
            await page.Locator("#nearer").ClickAsync();
            await page.Locator($".drawing[data-zoom='{zoom}']").WaitForAsync();
        }

        foreach (var corner in new[] { "r => r.scrollTo(0, 0)", "r => r.scrollTo(r.scrollWidth, r.scrollHeight)" })
        {
            await page.Locator(".scroll").EvaluateAsync(corner);
            await page.Locator(".order button.plain").Nth(corner.Contains("0, 0", StringComparison.Ordinal) ? 0 : 1).ClickAsync();
            Assert.True(await Wait.Until(() => page.EvaluateAsync<bool>(Within, ".cross"), seen => seen), $"the cross is out of sight after {corner}");
        }

        screens.IsQuiet();
    }

    private const string Within = """
        part => {
          const at = document.querySelector(part)?.getBoundingClientRect(), room = document.querySelector('.scroll').getBoundingClientRect();
          return !!at && at.left < room.right && at.right > room.left && at.top < room.bottom && at.bottom > room.top && at.bottom > 0 && at.top < innerHeight;
        }
        """;

    private static Task<bool> IsSeen(IPage page, string id) => page.EvaluateAsync<bool>(Within, $"#board [data-id={id}]");
}
