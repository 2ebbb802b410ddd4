using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The system's Chromium, headless, started once for all browser tests.</summary>
public sealed class Chromium : IAsyncLifetime
{
    // What is waited for comes at once on a quiet machine; a busy one may take its time.
    private const float PatienceMilliseconds = 180_000;

    private IPlaywright? playwright;

    public IBrowser Browser { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        playwright = await Playwright.CreateAsync();
        Assertions.SetDefaultExpectTimeout(PatienceMilliseconds);
        Browser = await playwright.Chromium.LaunchAsync(new() { ExecutablePath = SystemChromium.Path, Headless = true, Args = SystemChromium.Switches });
    }

    public async ValueTask DisposeAsync()
    {
        await Browser.DisposeAsync();
        playwright?.Dispose();
    }

    /// <summary>A new device: its storage is empty.</summary>
    public async Task<IBrowserContext> Device(int width = 1280, int height = 800)
    {
        var device = await Browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, ReducedMotion = ReducedMotion.Reduce });
        device.SetDefaultTimeout(PatienceMilliseconds);
        return device;
    }

    /// <summary>A new device as large as a phone, worked by touch.</summary>
    public async Task<IBrowserContext> Phone()
    {
        var phone = await Browser.NewContextAsync(new() { ViewportSize = new() { Width = 390, Height = 844 }, HasTouch = true, IsMobile = true, ReducedMotion = ReducedMotion.Reduce });
        phone.SetDefaultTimeout(PatienceMilliseconds);
        return phone;
    }

    /// <summary>Fails with every accessibility rule of axe-core that the page breaks.</summary>
    public static async Task IsAccessible(IPage page)
    {
        var result = await page.RunAxe();
        Assert.True(result.Violations.Length == 0, string.Join("\n", result.Violations.Select(Words)));
    }

    private static string Words(AxeResultItem v) => $"{v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Select(n => n.Html))}";
}

/// <summary>All browser tests share one browser and run one after another: the machine has few cores.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<Chromium>
{
    public const string Name = "browser";
}
