using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A store of 60 case sections laid out by hand: a case list, the size of the store, rooms with doorways, line-ups in their places, drops
/// and an entrance. What it takes is told; that the layout is one is asked.</summary>
[Collection(BrowserTests.Name)]
public sealed class SixtySectionsTests(Chromium chromium, ITestOutputHelper output)
{
    // Line-up, cases, sections, then left and lower edge in feet, and how it is turned.
    private static readonly (string Name, int Cases, string Sections, string X, string Y, string[] Turns)[] LineUps =
    [
        ("L1", 4, "12-12-12", "12", "126.5", []), ("L2", 4, "12-12-12", "14", "100", []), ("L3", 3, "12-12-12", "24", "66", []),
        ("L4", 3, "12-12-12", "24", "69.5", ["flip"]), ("L5", 3, "12-12-12", "24", "38", []), ("L6", 3, "8-8-8", "0", "20", ["turn"]),
    ];

    [Fact]
    public async Task Store_OfSixtySections_IsLaidOutAndPassesTheChecks()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "sixty");
        var page = screens.Page;
        var hand = new Hand(page);
        ILocator At(string id) => page.Locator("#" + id);
        await page.GotoAsync(server.Url);
        await hand.Click(page.GetByRole(AriaRole.Link, new() { Name = "New store from a case list" }));
        await hand.Fill(At("name"), "Plover Market");
        await hand.Fill(At("cases"), "tag,kind,lengths,circuit,system,refrigerant,lineUp\n" + string.Concat(LineUps.SelectMany((l, i) => Enumerable.Range(0, l.Cases)
            .Select(c => string.Create(CultureInfo.InvariantCulture, $"{i + 1}{(char)('A' + c)},open-case,{l.Sections},A{i + 1},A,R-448A,{l.Name}\n")))));
        await hand.Click(page.GetByRole(AriaRole.Button, new() { Name = "Make the store" }));
        await At("begin").WaitForAsync();
        await hand.Click(page.GetByRole(AriaRole.Link, new() { Name = "Plan", Exact = true }));
        await At("board").WaitForAsync();

        await hand.Choose(At("add-what"), "store");
        await Add(hand, page, [("add-width", "200"), ("add-height", "130")]);
        foreach (var (name, x, y, w, h, door) in new[] { ("Stock", "165", "90", "35", "40", "105"), ("Bakery", "165", "50", "35", "40", "65"), ("Prep", "165", "10", "35", "40", "25") })
        {
            await hand.Choose(At("add-what"), "rooms/prep");
            await Add(hand, page, [("add-x", x), ("add-y", y), ("add-width", w), ("add-height", h), ("add-name", name)]);
            await hand.Choose(At("add-what"), "opening");
            await Add(hand, page, [("add-x", x), ("add-y", door), ("add-width", "0"), ("add-height", "5")]);
        }

        foreach (var (i, l) in LineUps.Index())
        {
            await hand.Click(page.Locator("#board .thing.fixtures", new() { HasTextString = $"{i + 1}A" }));
            await hand.Click(At("line-up"));
            foreach (var turn in l.Turns) await hand.Click(At(turn));
            await hand.Fill(At("place-x"), l.X);
            await hand.Press("Tab");
            await hand.Write(l.Y);
            await hand.Press("Enter");
            await hand.Choose(At("add-what"), "drop");
            await hand.Click(At("add"));
        }

        await hand.Choose(At("add-what"), "entrance");
        await Add(hand, page, [("add-x", "100"), ("add-y", "0")]);
        await hand.Click(page.GetByLabel("Places are to scale"));
        await screens.Look("drawn");
        await hand.Click(At("save"));
        await Assertions.Expect(At("plan-state")).ToContainTextAsync("Saved");
        await Floor.AllSent(page);
        output.WriteLine(FormattableString.Invariant($"{hand.Keys} keys, {hand.Clicks} clicks, {hand.Minutes:0.0} minutes at the pace of the keystroke-level model"));

        var file = Path.Combine(server.Folder, "plover-market.layout.json");
        await File.WriteAllTextAsync(file, await server.Get("/api/stores/plover-market/layout"), TestContext.Current.CancellationToken);
        Assert.Equal(0, await DeskTests.Run("check", file));
        var layout = JsonNode.Parse(await File.ReadAllTextAsync(file, TestContext.Current.CancellationToken))!;
        Assert.Equal(60, layout["fixtures"]!.AsArray().Sum(f => f!["sections"]!.AsArray().Count));
        Assert.Equal((3, 6), (layout["rooms"]!.AsArray().Count, layout["drops"]!.AsArray().Count));
        Assert.Contains(layout["entrances"]!.AsArray(), e => e!["at"]!.ToJsonString() == "[100,0]");
        Assert.All(layout["rooms"]!.AsArray(), r => Assert.Single(r!["openings"]!.AsArray()));
        Assert.Equal(20, layout["drops"]!.AsArray().SelectMany(d => d!["fixtures"]!.AsArray()).Distinct().Count());
        Assert.Null(layout["schematic"]);
        screens.IsQuiet();
    }

    // One field after the other by the Tab key, then Enter.
    private static async Task Add(Hand hand, IPage page, IReadOnlyList<(string Id, string Text)> fields)
    {
        foreach (var (i, (id, text)) in fields.Index())
        {
            if (i == 0) await hand.Click(page.Locator("#" + id));
            else await hand.Press("Tab");
            await hand.Write(text);
        }

        await hand.Press("Enter");
    }
}
