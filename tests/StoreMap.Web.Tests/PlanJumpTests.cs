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

    /// <summary>A tag typed twice was taken, and named two cases on every sheet.</summary>
    [Fact]
    public async Task Tag_OfAnotherCase_IsRefusedWhereItIsTypedAndInAList()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "tag");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await page.Locator("#board").WaitForAsync();
        await page.GetByText("Choose among all").ClickAsync();
        await page.Locator(".things button").Filter(new() { HasText = "1B" }).ClickAsync();
        await page.Locator("#field-tag").FillAsync("1a");
        await page.Locator("#field-tag").PressAsync("Tab");
        await Assertions.Expect(page.Locator("#tag-twice")).ToHaveTextAsync("Not taken over: another case has the tag 1a already. Every case needs a tag of its own.");
        await Assertions.Expect(page.Locator("#field-tag")).ToHaveValueAsync("1B");
        await Assertions.Expect(page.Locator("#plan-state")).ToHaveTextAsync("As saved.");
        await screens.Look("refused", page.Locator("#tag-twice"));
        await page.Locator("#field-tag").FillAsync("1C");
        await page.Locator("#field-tag").PressAsync("Tab");
        await Assertions.Expect(page.Locator("#tag-twice")).ToHaveCountAsync(0);
        await Assertions.Expect(page.Locator("#chosen h2")).ToContainTextAsync("1C");

        await page.Locator("#add-list summary").ClickAsync();
        await page.Locator("#listed").FillAsync("tag,lengths\n1A,3\n9,3\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add these cases" }).ClickAsync();
        await Assertions.Expect(page.Locator("#list-tags")).ToContainTextAsync("Not added: the store has a case with this tag already: 1A.");
        await screens.Look("list", page.Locator("#list-tags"));
        await page.Locator("#listed").FillAsync("tag,lengths\n9,3\n");
        await page.GetByRole(AriaRole.Button, new() { Name = "Add these cases" }).ClickAsync();
        await Assertions.Expect(page.Locator("#board .thing.fixtures")).ToHaveCountAsync(4);
        screens.IsQuiet();
    }

    /// <summary>A plan drawn by hand over a list's went on printing as a list; the tick was overlooked.</summary>
    [Fact]
    public async Task PlanOfAList_LaidOutByHand_AsksWhetherItIsToScale()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "scale");
        var page = screens.Page;
        await Floor.MakeStore(page, server.Url, 2);
        await page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }).ClickAsync();
        await page.Locator("#board").WaitForAsync();
        await Assertions.Expect(page.Locator("#ask-scale")).ToHaveCountAsync(0);
        await Move("2");
        await Assertions.Expect(page.Locator("#ask-scale")).ToContainTextAsync("still show this plan as a list");
        await screens.Look("asked", page.Locator("#ask-scale"));
        await page.Locator("#not-to-scale").ClickAsync();
        await Move("3");
        await Assertions.Expect(page.Locator("#ask-scale")).ToHaveCountAsync(0);

        // Once saved it is asked again, and answered for good.
        await page.Locator("#save").ClickAsync();
        await page.Locator("#to-scale").ClickAsync();
        await Assertions.Expect(page.Locator("#ask-scale")).ToHaveCountAsync(0);
        await Assertions.Expect(page.GetByLabel("Places are to scale")).ToBeCheckedAsync();
        await Move("4");
        await Assertions.Expect(page.Locator("#ask-scale")).ToHaveCountAsync(0);
        screens.IsQuiet();

        async Task Move(string to)
        {
            if (await page.Locator("#chosen").CountAsync() == 0)
            {
                await page.GetByText("Choose among all").ClickAsync();
                await page.Locator(".things button").Filter(new() { HasText = "1" }).First.ClickAsync();
            }

            await page.Locator("#place-x").FillAsync(to);
            await page.Locator("#place-it").ClickAsync();
            await Assertions.Expect(page.Locator("#plan-state")).Not.ToHaveTextAsync("As saved.");
        }
    }

    private const string Within = """
        part => {
          const at = document.querySelector(part)?.getBoundingClientRect(), room = document.querySelector('.scroll').getBoundingClientRect();
          return !!at && at.left < room.right && at.right > room.left && at.top < room.bottom && at.bottom > room.top && at.bottom > 0 && at.top < innerHeight;
        }
        """;

    private static Task<bool> IsSeen(IPage page, string id) => page.EvaluateAsync<bool>(Within, $"#board [data-id={id}]");
}
