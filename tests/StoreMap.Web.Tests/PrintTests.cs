using Microsoft.Playwright;
using UglyToad.PdfPig;

namespace StoreMap.Tests;

/// <summary>Pages of the desk on paper, as Chromium prints them and PdfPig reads them back: what is known, whole and dark on white, and
/// nothing to press.</summary>
[Collection(BrowserTests.Name)]
public sealed class PrintTests(Chromium chromium)
{
    private static readonly string[] NotOnPaper = ["Plan anew", "Walk sheet", "Nearer", "Draw in full", "Take back", "Add the finding", "Leak here", "Add a photo", "Service record file", "All sent", "Press a place", "Drag a stop"];

    [Fact]
    public async Task WalkMapAndFindings_Printed_AreWholeDarkOnWhiteAndWithoutControls()
    {
        await using var server = await ServerProcess.Start();
        await using var screens = await Screens.Open(chromium, "print");
        var page = screens.Page;
        await Desk.OpenSmall(page, server.Url);
        await Floor.AllSent(page);
        var store = page.Url;
        // A dark screen prints like any other.
        await Floor.Turn(page, $"{server.Url}/device");
        await page.GetByLabel("Dark").CheckAsync();

        await Floor.Turn(page, store + "/route");
        await page.Locator(".stops li").First.WaitForAsync();
        // What is kept of the walk is sent before the page is left: sent twice, the server refuses the second in the console.
        await Floor.AllSent(page);
        await Paper(page, "walk", ["Walk, ", .. await page.Locator(".stops li .what").AllInnerTextsAsync()]);

        await Floor.Turn(page, store + "/map");
        await page.Locator(".order li").First.WaitForAsync();
        await Floor.AllSent(page);
        await page.Locator("#nearer").ClickAsync();
        await Assertions.Expect(page.Locator(".work progress")).ToHaveCountAsync(0);
        await Paper(page, "map", ["Map, ", "Visit of ", "Lift panels in this order", .. await page.Locator(".order li b").AllInnerTextsAsync(), "Leak zones", "Lock out and tag out", "Results support a qualified person"]);

        await page.Locator(".leak-here").First.ClickAsync();
        await page.Locator("input.component").FillAsync("expansion valve flare");
        await page.Locator(".confirm").ClickAsync();
        await Assertions.Expect(page.Locator(".looked li")).ToHaveCountAsync(1);
        await Floor.AllSent(page);
        await Floor.Turn(page, store + "/findings");
        await page.Locator(".record li").First.WaitForAsync();
        await page.Locator("#new-finding summary").ClickAsync();
        await Paper(page, "findings", ["Findings, ", "Leak confirmed", "expansion valve flare", await page.Locator(".finding h3").InnerTextAsync()]);

        // The walk sheet, once drawn, is printed by itself.
        await Floor.Turn(page, store + "/route");
        await page.Locator("#walk-sheets").ClickAsync();
        await page.Locator("figure.sheet").First.WaitForAsync();
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await Assertions.Expect(page.Locator(".stops")).ToBeHiddenAsync();
        await Assertions.Expect(page.Locator("figure.sheet").First).ToBeVisibleAsync();

        // At the scale that the sheet says: as many millimetres wide and high on paper as it is drawn.
        foreach (var wrong in await page.EvaluateAsync<double[]>("""
            () => [...document.querySelectorAll('figure.sheet .paper')].flatMap(h => {
              const svg = h.shadowRoot.querySelector('svg'), box = svg.viewBox.baseVal, to = svg.getScreenCTM(), px = 96 / 25.4;
              return [box.width * to.a / px - parseFloat(svg.getAttribute('width')), box.height * to.d / px - parseFloat(svg.getAttribute('height'))];
            })
            """)) Assert.InRange(wrong, -0.1, 0.1);
        screens.IsQuiet();
    }

    private static async Task Paper(IPage page, string name, IEnumerable<string> words)
    {
        var bytes = await page.PdfAsync(new() { Format = "A4" });
        if (Environment.GetEnvironmentVariable("STOREMAP_REFRESH") == "1") await File.WriteAllBytesAsync(Path.Combine(Path.GetTempPath(), $"storemap-print-{name}.pdf"), bytes);
        using var pdf = PdfDocument.Open(bytes);
        var pages = pdf.GetPages().ToList();
        var text = Packed(string.Concat(pages.Select(p => p.Text)));
        Assert.All(words, word => Assert.Contains(Packed(word), text, StringComparison.Ordinal));
        Assert.All(NotOnPaper, word => Assert.DoesNotContain(Packed(word), text, StringComparison.Ordinal));
        foreach (var p in pages)
        {
            Assert.NotEmpty(p.Letters);
            Assert.All(p.Letters, letter =>
            {
                Assert.InRange(letter.BoundingBox.Left, 0, p.Width);
                Assert.InRange(letter.BoundingBox.Right, 0, p.Width);
            });
        }

        // Nothing is cut off by a box of its own.
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        Assert.Empty(await page.EvaluateAsync<string[]>(
            "() => [...document.querySelectorAll('main *')].filter(e => e.offsetParent && getComputedStyle(e).overflow !== 'visible' && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)).map(e => e.outerHTML.slice(0, 120))"));
        Assert.Equal(["rgb(0, 0, 0)", "rgb(255, 255, 255)"], await page.EvaluateAsync<string[]>("() => [getComputedStyle(document.querySelector('main h1')).color, getComputedStyle(document.body).backgroundColor]"));
        await page.EmulateMediaAsync(new() { Media = Media.Null });
    }

    // Letters that are set as one read as what they stand for.
    private static string Packed(string text) => string.Concat(text.Replace("\ufb01", "fi", StringComparison.Ordinal).Replace("\ufb02", "fl", StringComparison.Ordinal).Where(c => !char.IsWhiteSpace(c)));
}
