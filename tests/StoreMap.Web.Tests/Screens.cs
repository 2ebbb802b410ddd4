using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A page of a new device, looked at in every size of screen at each stop of a moment.</summary>
internal sealed class Screens(IPage page, string moment) : IAsyncDisposable
{
    /// <summary>The sizes of screen.</summary>
    public static readonly IReadOnlyList<(string Name, int Width, int Height)> Sizes = [("phone", 390, 844), ("tablet", 820, 1180), ("desktop", 1280, 800)];
    private readonly List<string> errors = [];

    public IPage Page => page;

    private static bool Refresh => Environment.GetEnvironmentVariable("STOREMAP_REFRESH") == "1";

    /// <summary>Opens the page.</summary>
    /// <param name="chromium">The browser.</param>
    /// <param name="moment">What the moment is called, for the pictures' names.</param>
    public static async Task<Screens> Open(Chromium chromium, string moment)
    {
        var screens = new Screens(await (await chromium.Device()).NewPageAsync(), moment);
        screens.Listen();
        return screens;
    }

    /// <summary>Checks the screen in every size: axe finds nothing, and nothing sticks out sideways. Keeps its pictures when asked to.</summary>
    /// <param name="name">What the stop is called, for the pictures' names.</param>
    /// <param name="at">What the pictures are to show; null for where the page stands.</param>
    public async Task Look(string name, ILocator? at = null)
    {
        foreach (var (size, width, height) in Sizes)
        {
            await page.SetViewportSizeAsync(width, height);
            await Chromium.IsAccessible(page);
            Assert.False(await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth > document.documentElement.clientWidth + 1"), $"{name} is wider than a {size}.");
            if (!Refresh) continue;
            if (at is not null) await at.EvaluateAsync("e => e.scrollIntoView({ block: 'center' })");
            var file = Path.Combine(Checkout.Root, "docs", "screens", $"{moment}-{name}-{size}.png");
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            await page.ScreenshotAsync(new() { Path = file });
        }
    }

    /// <summary>Fails when the console had an error.</summary>
    public void IsQuiet() => Assert.True(errors.Count == 0, string.Join(Environment.NewLine, errors));

    public ValueTask DisposeAsync() => page.Context.DisposeAsync();

    private void Listen()
    {
        page.Console += (_, message) =>
        {
            if (message.Type == "error") errors.Add($"{message.Text} ({message.Location}, from {page.Url})");
        };
        page.PageError += (_, error) => errors.Add(error);
    }
}
