using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace StoreMap.Tests;

/// <summary>The system's Chromium, headless, started once for all browser tests.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private const string Violations = """
        async () => (await axe.run({ resultTypes: ['violations'] })).violations.map(v => `${v.id}: ${v.help}: ${v.nodes.map(n => n.html).join(' | ')}`)
        """;

    private static readonly float PatienceMilliseconds = (float)Wait.Patience.TotalMilliseconds;

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
        var device = await Browser.NewContextAsync(new() { IgnoreHTTPSErrors = true, ViewportSize = new() { Width = width, Height = height }, ReducedMotion = ReducedMotion.Reduce });
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
        // Where there is one frame axe can be asked in it, which takes a tenth of having the parts of several put together on a page beside it.
        Assert.Single(page.Frames);
        if (!await page.EvaluateAsync<bool>("() => 'axe' in window")) await page.GetAxeRules();
        Assert.Empty(await page.EvaluateAsync<string[]>(Violations));
    }
}

/// <summary>All browser tests share one browser and run one after another: the machine has few cores.</summary>
[CollectionDefinition(Name)]
public sealed class BrowserTests : ICollectionFixture<Chromium>
{
    public const string Name = "browser";
}
