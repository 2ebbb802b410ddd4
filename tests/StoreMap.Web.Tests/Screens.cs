using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>A page of a new device, looked at in sizes of screen at each stop of a moment.</summary>
internal sealed class Screens : IAsyncDisposable
{
    /// <summary>The sizes of screen.</summary>
    public static readonly IReadOnlyList<(string Name, int Width, int Height)> Sizes = [("phone", 390, 844), ("tablet", 820, 1180), ("desktop", 1280, 800)];
    private readonly List<string> errors = [];
    private readonly string moment;
    private readonly IReadOnlyList<(string Name, int Width, int Height)> sizes;

    private Screens(IPage page, string moment, IReadOnlyList<(string Name, int Width, int Height)> sizes)
    {
        (Page, this.moment, this.sizes) = (page, moment, sizes);
        page.Console += (_, message) =>
        {
            if (message.Type == "error") errors.Add($"{message.Text} ({message.Location}, from {page.Url})");
        };
        page.PageError += (_, error) => errors.Add(error);
    }

    public IPage Page { get; }

    private static bool Refresh => Environment.GetEnvironmentVariable("STOREMAP_REFRESH") == "1";

    /// <summary>Opens the page.</summary>
    /// <param name="chromium">The browser.</param>
    /// <param name="moment">What the moment is called, for the pictures' names.</param>
    /// <param name="size">The only size that is looked at, and in which the page is from the start; null for all.</param>
    public static async Task<Screens> Open(Chromium chromium, string moment, string? size = null)
    {
        var sizes = Sizes.Where(s => size is null || s.Name == size).ToList();
        var device = size is null ? await chromium.Device() : await chromium.Device(sizes[0].Width, sizes[0].Height);
        return new Screens(await device.NewPageAsync(), moment, sizes);
    }

    /// <summary>Checks the screen in its sizes: axe finds nothing, and nothing sticks out sideways. Keeps its pictures when asked to.</summary>
    /// <param name="name">What the stop is called, for the pictures' names.</param>
    /// <param name="at">What the pictures are to show; null for where the page stands.</param>
    public async Task Look(string name, ILocator? at = null)
    {
        foreach (var (size, width, height) in sizes)
        {
            await Page.SetViewportSizeAsync(width, height);
            await Chromium.IsAccessible(Page);
            Assert.False(await Page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth > document.documentElement.clientWidth + 1"), $"{name} is wider than a {size}.");
            if (!Refresh) continue;
            if (at is not null) await at.EvaluateAsync("e => e.scrollIntoView({ block: 'center' })");
            var file = Path.Combine(Checkout.Root, "docs", "screens", $"{moment}-{name}-{size}.png");
            Directory.CreateDirectory(Path.GetDirectoryName(file)!);
            await Page.ScreenshotAsync(new() { Path = file });
        }
    }

    /// <summary>Fails when the console had an error.</summary>
    public void IsQuiet() => Assert.True(errors.Count == 0, string.Join(Environment.NewLine, errors));

    public ValueTask DisposeAsync() => Page.Context.DisposeAsync();
}
